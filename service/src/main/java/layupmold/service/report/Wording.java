package layupmold.service.report;

import java.util.Locale;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Severity;
import layupmold.service.report.ReportPage.FindingLine;
import layupmold.service.report.ReportPage.Tone;
import org.joml.Vector3dc;

/** Numbers, places and findings in words for people. */
final class Wording {

    private Wording() {
    }

    /** Digits enough for a maker: two decimals below 10, one below 100, none above. */
    static String number(double value) {
        double size = Math.abs(value);
        String digits = size != 0 && size < 0.1 ? "%.3f" : size < 10 ? "%.2f" : size < 100 ? "%.1f" : "%.0f";
        return String.format(Locale.ROOT, digits, value).replaceFirst("^-(?=[0.]*$)", "").replace('-', '\u2212');
    }

    static String mm(double value) {
        return Double.isNaN(value) ? "not measured" : number(value) + " mm";
    }

    static String degrees(double value) {
        return Double.isNaN(value) ? "not measured" : number(value) + "°";
    }

    static String cm2(double areaMm2) {
        return Double.isNaN(areaMm2) ? "not measured" : number(areaMm2 / 100) + " cm²";
    }

    static String cm3(double volumeMm3) {
        return number(volumeMm3 / 1000) + " cm³";
    }

    static String percent(double share) {
        return number(100 * share) + " %";
    }

    static String size(Vector3dc mm) {
        return String.format(Locale.ROOT, "%.0f × %.0f × %.0f mm", mm.x(), mm.y(), mm.z());
    }

    static String direction(Vector3dc unit) {
        return String.format(Locale.ROOT, "(%.3f, %.3f, %.3f)", unit.x(), unit.y(), unit.z()).replace('-', '\u2212');
    }

    /** Empty for null. */
    static String place(Place place) {
        return place == null ? "" : String.format(Locale.ROOT, "at (%.1f, %.1f, %.1f) on the part as posted",
                place.x(), place.y(), place.z()).replace('-', '\u2212');
    }

    /** An upright plane, as one measures it on the mold. */
    static String uprightPlane(Vector3dc normal, Place through) {
        return String.format(Locale.ROOT, "In the mold's frame it passes x = %.0f mm, y = %.0f mm, its normal %.0f° from x.",
                through.x(), through.y(), Math.toDegrees(Math.atan2(normal.y(), normal.x()))).replace('-', '\u2212');
    }

    static FindingLine finding(Finding finding) {
        return new FindingLine(tone(finding.severity()), finding.message(), figure(finding), place(finding.place()),
                finding.advice() == null ? "" : finding.advice(), finding.code());
    }

    private static Tone tone(Severity severity) {
        return switch (severity) {
            case ERROR -> Tone.BAD;
            case WARNING -> Tone.LOOK;
            case INFO -> Tone.GOOD;
        };
    }

    private static String figure(Finding finding) {
        if (finding.figure() == null) {
            return "";
        }
        String measured = "measured " + withUnit(finding.figure(), finding.unit());
        return finding.limit() == null ? measured : measured + ", limit " + withUnit(finding.limit(), finding.unit());
    }

    private static String withUnit(double value, String unit) {
        return switch (unit == null ? "1" : unit) {
            case "1" -> number(value);
            case "deg" -> degrees(value);
            case "mm2" -> number(value) + " mm²";
            case "mm3" -> number(value) + " mm³";
            case "C", "degC" -> number(value) + " °C";
            default -> number(value) + " " + unit;
        };
    }
}
