package layupmold.geometry.finding;

import java.util.Objects;

/**
 * One thing a stage has to say about a part or its mold.
 *
 * @param severity how much it matters
 * @param stage which pipeline stage found it, in lower case ("face", "offset")
 * @param code stable kebab-case identifier that programs may switch on ("perimeter-crosses-itself")
 * @param message one sentence for the maker
 * @param place where, or null if it concerns the whole
 * @param figure the measured value, or null
 * @param limit what the figure is held against, or null
 * @param unit unit of figure and limit ("mm", "deg", "mm2", "1"), or null
 * @param advice what to do about it, or null
 */
public record Finding(
        Severity severity,
        String stage,
        String code,
        String message,
        Place place,
        Double figure,
        Double limit,
        String unit,
        String advice) {

    public Finding {
        Objects.requireNonNull(severity);
        Objects.requireNonNull(stage);
        Objects.requireNonNull(code);
        Objects.requireNonNull(message);
    }

    public static Finding info(String stage, String code, String message) {
        return new Finding(Severity.INFO, stage, code, message, null, null, null, null, null);
    }

    public static Finding warning(String stage, String code, String message) {
        return new Finding(Severity.WARNING, stage, code, message, null, null, null, null, null);
    }

    public static Finding error(String stage, String code, String message) {
        return new Finding(Severity.ERROR, stage, code, message, null, null, null, null, null);
    }

    public Finding at(Place where) {
        return new Finding(severity, stage, code, message, where, figure, limit, unit, advice);
    }

    public Finding measured(double value, Double against, String inUnit) {
        return new Finding(severity, stage, code, message, place, value, against, inUnit, advice);
    }

    public Finding advising(String whatToDo) {
        return new Finding(severity, stage, code, message, place, figure, limit, unit, whatToDo);
    }
}
