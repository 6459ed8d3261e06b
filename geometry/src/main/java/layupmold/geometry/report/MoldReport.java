package layupmold.geometry.report;

import java.util.List;
import layupmold.geometry.finding.Finding;

/** What every stage measured and found, in pipeline order. */
public record MoldReport(
        PartFigures part,
        PullFigures pull,
        FaceFigures face,
        LaminateFigures laminate,
        OffsetFigures offset,
        FlangeFigures flange,
        BodyFigures body,
        CheckFigures checks,
        List<Finding> findings) {

    public MoldReport {
        findings = List.copyOf(findings);
    }
}
