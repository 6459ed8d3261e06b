package layupmold.geometry.kit;

import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.recipe.Recipe;

/**
 * What printing a solid takes, roughly: walls and skins of the recipe's lines all over its surface, the rest filled by
 * the recipe's share, at its mean speed, and a quarter more for travel and corners (common practice, no source).
 *
 * @param plasticMm3 printed volume
 * @param minutes time
 */
public record PrintEstimate(double plasticMm3, double minutes) {

    private static final double SLOWER = 1.25;

    static PrintEstimate of(TriangleMesh solid, Recipe recipe) {
        double nozzle = recipe.printer().nozzleMm();
        double volume = solid.volume();
        double skin = Math.min(volume, solid.area() * recipe.inspect().wallLines() * nozzle);
        double plastic = skin + recipe.inspect().infillShare() * (volume - skin);
        double flow = nozzle * recipe.inspect().layerMm() * recipe.inspect().speedMmPerS();
        return new PrintEstimate(plastic, SLOWER * plastic / flow / 60);
    }
}
