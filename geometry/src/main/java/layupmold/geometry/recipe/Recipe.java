package layupmold.geometry.recipe;

import java.util.Objects;
import org.joml.Vector3d;

/**
 * Everything about a mold besides the part's mesh.
 *
 * @param title name for reports and file metadata, or null
 * @param unit unit of the mesh file's numbers; a file format's own unit wins
 * @param pull direction along which the cured part leaves the mold, in the posted mesh's frame; null to search
 * @param keep which wall is the face
 * @param tool cavity or plug
 * @param hold which face keeps the modelled size
 * @param layup plies and resin
 * @param releaseMm thickness of the release layer, mm
 * @param openings what becomes of the part's openings
 * @param flange the surface beyond the perimeter
 * @param fillet what becomes of corners too tight for the cloth
 * @param body the printed solid
 * @param printer the machine that prints it
 * @param inspect what the finished mold is held against
 */
public record Recipe(
        String title,
        LengthUnit unit,
        Vector3d pull,
        Keep keep,
        Tool tool,
        Hold hold,
        Layup layup,
        double releaseMm,
        OpeningSpec openings,
        FlangeSpec flange,
        FilletSpec fillet,
        BodySpec body,
        Printer printer,
        InspectSpec inspect) {

    public Recipe {
        Objects.requireNonNull(unit);
        Objects.requireNonNull(keep);
        Objects.requireNonNull(tool);
        Objects.requireNonNull(hold);
        Objects.requireNonNull(layup);
        Objects.requireNonNull(openings);
        Objects.requireNonNull(flange);
        Objects.requireNonNull(fillet);
        Objects.requireNonNull(body);
        Objects.requireNonNull(printer);
        Objects.requireNonNull(inspect);
        Limits.inRange("releaseMm", releaseMm, 0, 2);
        if (pull != null) {
            double length = pull.length();
            if (!(length > 1e-9 && Double.isFinite(length))) {
                throw new IllegalArgumentException("pull must be a finite vector that is not zero");
            }
            pull = new Vector3d(pull).div(length);
        }
    }

    /**
     * Female tool holding the inner face, so that the laminate adds itself outside the modelled size; 0.05 mm of wax
     * and release film (from memory).
     */
    public static Recipe defaults() {
        return new Recipe(null, LengthUnit.MM, null, new Keep.Outer(), Tool.FEMALE, Hold.INNER, Layup.defaults(), 0.05,
                OpeningSpec.defaults(), FlangeSpec.defaults(), FilletSpec.none(),
                BodySpec.defaults(), Printer.defaults(), InspectSpec.defaults());
    }

    public Recipe withPull(Vector3d direction) {
        return new Recipe(title, unit, direction, keep, tool, hold, layup, releaseMm, openings, flange, fillet,
                body, printer, inspect);
    }

    public Recipe withKeep(Keep wall) {
        return new Recipe(title, unit, pull, wall, tool, hold, layup, releaseMm, openings, flange, fillet,
                body, printer, inspect);
    }

    public Recipe withTool(Tool side, Hold held) {
        return new Recipe(title, unit, pull, keep, side, held, layup, releaseMm, openings, flange, fillet,
                body, printer, inspect);
    }

    public Recipe withLayup(Layup plies, double release) {
        return new Recipe(title, unit, pull, keep, tool, hold, plies, release, openings, flange, fillet,
                body, printer, inspect);
    }

    public Recipe withOpenings(OpeningSpec spec) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, spec, flange, fillet,
                body, printer, inspect);
    }

    public Recipe withFlange(FlangeSpec spec) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, openings, spec, fillet,
                body, printer, inspect);
    }

    public Recipe withFillet(FilletSpec spec) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, openings, flange, spec,
                body, printer, inspect);
    }

    public Recipe withBody(BodySpec spec) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, openings, flange, fillet,
                spec, printer, inspect);
    }

    public Recipe withPrinter(Printer machine) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, openings, flange, fillet,
                body, machine, inspect);
    }

    public Recipe withInspect(InspectSpec spec) {
        return new Recipe(title, unit, pull, keep, tool, hold, layup, releaseMm, openings, flange, fillet,
                body, printer, spec);
    }
}
