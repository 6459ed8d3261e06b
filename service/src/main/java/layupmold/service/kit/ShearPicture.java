package layupmold.service.kit;

import layupmold.geometry.drape.DrapedPly;
import layupmold.geometry.drape.ToolSheet;
import layupmold.geometry.kit.LayupKit;
import layupmold.geometry.render.Camera;
import layupmold.geometry.render.ColourMap;
import layupmold.geometry.render.Item;
import layupmold.geometry.render.Legend;
import layupmold.geometry.render.Paint;
import layupmold.geometry.render.PngWriter;
import layupmold.geometry.render.Renderer;
import layupmold.geometry.render.Scene;
import layupmold.geometry.render.ValueScale;

/** The tool as the maker looks into it, coloured by how far a ply's cloth shears there. */
final class ShearPicture {

    private static final Camera FROM_ABOVE = Camera.from(-60, 55);

    private ShearPicture() {
    }

    /** @param ply index of the ply, from 0 */
    static byte[] png(LayupKit kit, int ply, int widthPx, int heightPx) {
        DrapedPly draped = kit.drapes().get(ply);
        ToolSheet sheet = draped.sheet();
        float[] values = new float[draped.shearDeg().length];
        for (int t = 0; t < values.length; t++) {
            values[t] = (float) draped.shearDeg()[t];
        }
        double locking = draped.spec().lockingDeg();
        double high = Math.min(90, Math.max(1.2 * locking, draped.figures().maxShearDeg() + 1));
        ValueScale scale = new ValueScale("Shear of the cloth", "deg", 0, high, high / 2, ColourMap.SEQUENTIAL, locking);
        Scene scene = Scene.of(kit.part(), TemplateDrawing.cloth(kit.layup().plies().get(ply)), FROM_ABOVE,
                new Item(sheet.mesh(), new Paint.TriangleValues(values, scale)));
        return PngWriter.toBytes(Renderer.render(scene.asMap(new Legend.Scale(scale)).sized(widthPx, heightPx)));
    }
}
