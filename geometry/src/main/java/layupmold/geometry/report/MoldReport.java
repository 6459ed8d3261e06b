package layupmold.geometry.report;

import java.util.List;
import layupmold.geometry.fillet.FilletFigures;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.geometry.inspect.FabricFigures;
import layupmold.geometry.inspect.PrintFigures;
import layupmold.geometry.inspect.ThicknessFigures;
import layupmold.geometry.laminate.LaminateFigures;

/**
 * What every stage measured and found, in pipeline order; places are in the posted mesh's frame. {@code fillet} is null
 * where filling was not asked for.
 */
public record MoldReport(
        PartFigures part,
        PullFigures pull,
        FaceFigures face,
        OpeningFigures openings,
        LaminateFigures laminate,
        OffsetFigures offset,
        FlangeFigures flange,
        BodyFigures body,
        CheckFigures checks,
        ThicknessFigures wall,
        DemoldFigures demold,
        FabricFigures fabric,
        FilletFigures fillet,
        PrintFigures print,
        List<Finding> findings) {

    public MoldReport {
        findings = List.copyOf(findings);
    }
}
