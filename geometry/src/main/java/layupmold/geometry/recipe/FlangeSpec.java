package layupmold.geometry.recipe;

/**
 * The surface beyond the perimeter that carries excess fabric.
 *
 * @param widthMm least width of the level border
 * @param draftDeg least draft of the wall between perimeter and border
 * @param riseMm how far the border's plane lies beyond the perimeter's farthest point along the pull
 * @param edgeRadiusMm radius of the edge between wall and border, so that fabric can follow it
 * @param trimLineDepthMm depth of the mark at the perimeter and around openings; 0 for none
 */
public record FlangeSpec(
        double widthMm, double draftDeg, double riseMm, double edgeRadiusMm, double trimLineDepthMm) {

    public FlangeSpec {
        Limits.inRange("widthMm", widthMm, 1, 200);
        Limits.inRange("draftDeg", draftDeg, 0.5, 60);
        Limits.inRange("riseMm", riseMm, 0.5, 200);
        Limits.inRange("edgeRadiusMm", edgeRadiusMm, 0, 50);
        Limits.inRange("trimLineDepthMm", trimLineDepthMm, 0, 2);
    }

    /**
     * 20 mm of border (fabric margin: common practice, no source), 5° of draft (3° or more is comfortable: trade
     * handbooks, from memory), a rise of 3 mm, a 2 mm edge and a trim line 0.3 mm deep.
     */
    public static FlangeSpec defaults() {
        return new FlangeSpec(20, 5, 3, 2, 0.3);
    }
}
