package layupmold.geometry.inspect;

import java.util.List;
import layupmold.geometry.congruence.Isometry;

/**
 * How the solid prints, as {@link PrintFit} defines it.
 *
 * @param overhangLimitDeg angle from the vertical that still prints without support
 * @param overhangMm2 area that looks down by more, without the bed's side and pieces of less than 0.1 mm²
 * @param overhangs largest first, at most 100
 * @param bed how it stands on the printer
 * @param filament material and time
 * @param heat whether it stands the cure
 */
public record PrintFigures(
        double overhangLimitDeg,
        double overhangMm2,
        List<Overhang> overhangs,
        BedFit bed,
        FilamentFigures filament,
        HeatFigures heat) {

    public PrintFigures {
        overhangs = List.copyOf(overhangs);
    }

    /** The same with places in another frame. */
    public PrintFigures in(Isometry frame) {
        return new PrintFigures(overhangLimitDeg, overhangMm2,
                overhangs.stream().map(overhang -> overhang.in(frame)).toList(),
                frame.mirrors() ? bed.mirrored() : bed, filament, heat);
    }
}
