package layupmold.service.making;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNull;

import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import layupmold.api.report.MoldReportDocument;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.report.MoldReport;
import layupmold.service.SampleReport;
import layupmold.service.recipe.AcceptedRecipe;
import org.junit.jupiter.api.Test;

class ReportMappingTest {

    private static final Set<String> ADDED = Set.of("recipe", "recipeHash", "partSha256", "partToMold",
            "laminate.arealWeightGsm", "laminate.partG");

    @Test
    void everyFigureOfTheGeometryReachesTheContract() {
        Set<String> contract = names(MoldReportDocument.class, "", "layupmold.api.report");
        contract.removeAll(ADDED);
        assertEquals(names(MoldReport.class, "", "layupmold.geometry"), contract);
    }

    @Test
    void figuresKeepTheirValues() {
        MoldReport report = SampleReport.filled();
        MoldReportDocument document = ReportMapping.REPORTS.toContract(
                new AcceptedRecipe(null, null, null, "{}", "hash"), "sha", RigidTransform.identity(), report);
        assertEquals(report.offset().maxDeviationMm(), document.offset().maxDeviationMm());
        assertEquals(report.part().triangles(), document.part().triangles());
        double gsm = report.laminate().fibreGsm() + report.laminate().matrixGsm();
        assertEquals(gsm, document.laminate().arealWeightGsm());
        assertEquals(gsm * report.face().areaMm2() / 1e6, document.laminate().partG(), 1e-9);
        assertEquals(List.of(1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0, 0.0, 0.0, 0.0, 0.0, 1.0),
                document.partToMold());
    }

    @Test
    void aFigureThatIsNotFiniteIsLeftOut() {
        assertNull(ReportMapping.REPORTS.finite(Double.NaN));
        assertNull(ReportMapping.REPORTS.finite(Double.POSITIVE_INFINITY));
        assertEquals(1.5, ReportMapping.REPORTS.finite(1.5));
    }

    private static Set<String> names(Class<?> type, String prefix, String packages) {
        Set<String> names = new TreeSet<>();
        for (RecordComponent component : type.getRecordComponents()) {
            names.add(prefix + component.getName());
            Class<?> inner = component.getType() == List.class
                    && component.getGenericType() instanceof ParameterizedType list
                    && list.getActualTypeArguments()[0] instanceof Class<?> item ? item : component.getType();
            if (inner.isRecord() && inner.getPackageName().startsWith(packages)) {
                names.addAll(names(inner, prefix + component.getName() + ".", packages));
            }
        }
        return names;
    }
}
