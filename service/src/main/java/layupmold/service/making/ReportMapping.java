package layupmold.service.making;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.api.report.LaminateReport;
import layupmold.api.report.MoldReportDocument;
import layupmold.api.report.PlaceFigures;
import layupmold.api.report.ReportFinding;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.laminate.LaminateFigures;
import layupmold.geometry.report.MoldReport;
import layupmold.service.recipe.AcceptedRecipe;
import org.joml.Vector3d;
import org.mapstruct.Mapper;
import org.mapstruct.Mapping;
import org.mapstruct.ReportingPolicy;
import org.mapstruct.factory.Mappers;

/** Reports from the geometry to the contract, field by field of the same name. */
@Mapper(unmappedTargetPolicy = ReportingPolicy.ERROR)
public interface ReportMapping {

    ReportMapping REPORTS = Mappers.getMapper(ReportMapping.class);

    @Mapping(target = "recipe", source = "recipe.effective")
    @Mapping(target = "recipeHash", source = "recipe.hash")
    @Mapping(target = "partSha256", source = "partSha256")
    @Mapping(target = "partToMold", source = "partToMold")
    @Mapping(target = "part", source = "report.part")
    @Mapping(target = "pull", source = "report.pull")
    @Mapping(target = "face", source = "report.face")
    @Mapping(target = "openings", source = "report.openings")
    @Mapping(target = "laminate", source = "report")
    @Mapping(target = "offset", source = "report.offset")
    @Mapping(target = "flange", source = "report.flange")
    @Mapping(target = "body", source = "report.body")
    @Mapping(target = "checks", source = "report.checks")
    @Mapping(target = "wall", source = "report.wall")
    @Mapping(target = "demold", source = "report.demold")
    @Mapping(target = "fabric", source = "report.fabric")
    @Mapping(target = "fillet", source = "report.fillet")
    @Mapping(target = "print", source = "report.print")
    @Mapping(target = "findings", source = "report.findings")
    MoldReportDocument toContract(
            AcceptedRecipe recipe, String partSha256, RigidTransform partToMold, MoldReport report);

    /** With the mass that follows from the face. */
    default LaminateReport laminate(MoldReport report) {
        LaminateFigures laminate = report.laminate();
        return new LaminateReport(laminate.fibreVolumeFraction(), laminate.plyMm(), laminate.laminateMm(),
                laminate.fibreGsm(), laminate.matrixGsm(), laminate.arealWeightGsm(),
                laminate.massG(report.face().areaMm2()));
    }

    ReportFinding toContract(Finding finding);

    List<ReportFinding> toContract(List<Finding> findings);

    default PlaceFigures toContract(Place place) {
        return place == null ? null : new PlaceFigures(place.x(), place.y(), place.z(),
                place.triangle() < 0 ? null : place.triangle());
    }

    default String toContract(MoldRegion region) {
        return region.name().toLowerCase(Locale.ROOT);
    }

    default List<Double> toContract(Vector3d vector) {
        return vector == null ? null : List.of(vector.x, vector.y, vector.z);
    }

    default List<Double> toContract(RigidTransform transform) {
        return Arrays.stream(transform.toRowMajor()).boxed().toList();
    }

    /** JSON has no number for what is not finite: such a figure is left out. */
    default Double finite(double figure) {
        return Double.isFinite(figure) ? figure : null;
    }
}
