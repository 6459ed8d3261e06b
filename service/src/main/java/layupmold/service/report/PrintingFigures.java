package layupmold.service.report;

import static layupmold.service.report.Wording.cm2;
import static layupmold.service.report.Wording.cm3;
import static layupmold.service.report.Wording.number;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.inspect.BedFit;
import layupmold.geometry.inspect.PrintFigures;
import layupmold.service.report.ReportPage.Figure;
import layupmold.service.report.ReportPage.FigureGroup;

/** What printing takes. */
final class PrintingFigures {

    private PrintingFigures() {
    }

    static FigureGroup print(PrintFigures print) {
        List<Figure> lines = new ArrayList<>();
        lines.add(bed(print.bed()));
        lines.add(new Figure("Overhang", cm2(print.overhangMm2()), "leans more than "
                + Wording.degrees(print.overhangLimitDeg()) + " from the vertical"));
        lines.add(new Figure("Filament", number(print.filament().massG()) + " g", cm3(print.filament().printedMm3())
                + " of material. " + print.filament().words()));
        lines.add(new Figure("Print time", time(print.filament().hours()), "estimate, formula above"));
        lines.add(new Figure("Softens at", temperature(print.heat().softensC()), print.heat().words()));
        lines.add(new Figure("Warmest in the cure", temperature(print.heat().cureC()),
                "resin's heat included; the data sheets decide"));
        return new FigureGroup("Printing", lines);
    }

    private static Figure bed(BedFit bed) {
        String size = String.format(Locale.ROOT, "%.0f × %.0f × %.0f mm", bed.widthMm(), bed.depthMm(), bed.heightMm());
        String turn = bed.turnDeg() == 0 ? "as it is"
                : String.format(Locale.ROOT, "turned by %.1f° counter-clockwise", bed.turnDeg());
        return new Figure("On the bed", bed.fits() ? "fits" : "does not fit", size + " " + turn
                + String.format(Locale.ROOT, "; a bed of %.0f × %.0f mm would do", Math.ceil(bed.leastBedXMm()),
                        Math.ceil(bed.leastBedYMm())));
    }

    static String time(double hours) {
        long minutes = Math.round(60 * hours);
        return minutes < 60 ? minutes + " min" : minutes / 60 + " h " + minutes % 60 + " min";
    }

    private static String temperature(double celsius) {
        return String.format(Locale.ROOT, "%.0f °C", celsius);
    }
}
