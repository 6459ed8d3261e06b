package layupmold.api.report;

import io.micronaut.serde.annotation.Serdeable;

/**
 * One thing a stage has to say about a part or its mold.
 *
 * @param severity how much it matters
 * @param stage which stage found it
 * @param code stable identifier that programs may switch on
 * @param message one sentence for the maker
 * @param place where, or null if it concerns the whole
 * @param figure the measured value, or null
 * @param limit what the figure is held against, or null
 * @param unit unit of figure and limit, or null
 * @param advice what to do about it, or null
 */
@Serdeable
public record ReportFinding(
        SeverityLevel severity,
        String stage,
        String code,
        String message,
        PlaceFigures place,
        Double figure,
        Double limit,
        String unit,
        String advice) {
}
