package layupmold.geometry.recipe;

import java.util.List;
import org.joml.Vector3d;

/**
 * What becomes of the part's openings.
 *
 * @param kind closed by the tool surface and cut open after demolding, or moulded net
 * @param plugHeightMm how far a core plug stands over the laminate at its foot's highest point
 * @param plugDraftDeg least draft of a core plug's wall
 * @param exceptAt points in the posted mesh's own coordinates and unit: the opening nearest to each is made the other way
 */
public record OpeningSpec(Kind kind, double plugHeightMm, double plugDraftDeg, List<Vector3d> exceptAt) {

    /** How an opening is made. */
    public enum Kind {
        /** The tool surface runs on across the opening; the laminate is cut along the trim line. */
        CAP,
        /** An island stands in the opening; the laminate ends at its wall. */
        CORE_PLUG
    }

    public OpeningSpec {
        Limits.inRange("plugHeightMm", plugHeightMm, 0.5, 100);
        Limits.inRange("plugDraftDeg", plugDraftDeg, 0.5, 45);
        exceptAt = List.copyOf(exceptAt);
        if (!exceptAt.stream().allMatch(Vector3d::isFinite)) {
            throw new IllegalArgumentException("exceptAt needs finite coordinates");
        }
    }

    /** Whether core plugs are asked for anywhere. */
    public boolean hasPlugs() {
        return kind == Kind.CORE_PLUG || !exceptAt.isEmpty();
    }

    /** Capped; plugs would stand 3 mm over the laminate with 3° of draft (common practice, no source). */
    public static OpeningSpec defaults() {
        return new OpeningSpec(Kind.CAP, 3, 3, List.of());
    }
}
