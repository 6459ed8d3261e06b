package layupmold.service.report;

import java.util.List;
import layupmold.geometry.inspect.DemoldFigures;
import layupmold.service.report.ReportPage.FindingLine;
import layupmold.service.report.ReportPage.Tone;
import layupmold.service.report.ReportPage.Verdict;

/** The answer to "will this mold work", in a line and a sentence. */
final class Headline {

    private Headline() {
    }

    static Verdict of(List<FindingLine> problems, DemoldFigures demold) {
        return switch (demold.verdict()) {
            case LOCKED -> new Verdict(Tone.BAD, "Locked: the part will not come out in one piece",
                    demold.split() == null ? "Change the part or the pull direction before printing." : demold.split().words());
            case RELEASES_WITH_FLEX -> new Verdict(Tone.LOOK, "Releases with flex",
                    "The part must spring " + Wording.mm(demold.lockedRegions().get(0).depthMm())
                            + " to come out, within the " + Wording.mm(demold.flexLimitMm()) + " that the recipe allows."
                            + more(problems));
            case RELEASES -> problems.isEmpty()
                    ? new Verdict(Tone.GOOD, "Ready to print", "The part releases, all checks passed and nothing stands out.")
                    : new Verdict(Tone.LOOK, "Releases; " + count(problems), "The mold is sound." + more(problems));
        };
    }

    private static String count(List<FindingLine> problems) {
        return problems.size() == 1 ? "one thing to look at" : problems.size() + " things to look at";
    }

    private static String more(List<FindingLine> problems) {
        return problems.isEmpty() ? "" : " Read the points below before spending a night of printing.";
    }
}
