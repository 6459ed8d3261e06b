package layupmold.samples;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.MoldRegion;
import layupmold.geometry.Progress;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.recipe.Recipe;
import layupmold.geometry.recipe.Tool;
import layupmold.geometry.render.Camera;
import layupmold.geometry.render.Item;
import layupmold.geometry.render.Paint;
import layupmold.geometry.render.PngWriter;
import layupmold.geometry.render.Renderer;
import layupmold.geometry.render.Scene;
import org.joml.Matrix4d;

/** Draws a part and its mold, made by the default recipe, side by side: {@code PartAndMold part.stl picture.png}. */
public final class PartAndMold {

    private static final int PART = 0xC9C1B4;
    private static final int TOOL = 0x2E7F87;
    private static final int BODY = 0xD8CDB8;
    private static final double GAP_MM = 30;

    private PartAndMold() {
    }

    public static void main(String[] arguments) throws IOException {
        Path part = Path.of(arguments[0]);
        Path picture = Path.of(arguments[1]);
        Recipe recipe = Recipe.defaults();
        MoldOutcome outcome = MoldPipeline.make(MeshReader.read(Files.readAllBytes(part), part.getFileName().toString(),
                MeshLimits.defaults()), recipe, Progress.SILENT);
        if (outcome instanceof MoldOutcome.Rejected rejected) {
            throw new DemoFailure("no mold: " + rejected.reason().message());
        }
        Files.write(picture, PngWriter.toBytes(Renderer.render(scene((MoldOutcome.Mold) outcome, recipe.tool()))));
        System.out.printf(Locale.ROOT, "%s, %d bytes%n", picture, Files.size(picture));
    }

    private static Scene scene(MoldOutcome.Mold mold, Tool tool) {
        TriangleMesh solid = mold.solid();
        TriangleMesh part = mold.workpiece().part();
        // In a cavity the part lies face down: beside it, it is shown as it will be worn.
        TriangleMesh faceUp = tool == Tool.MALE ? part
                : new RigidTransform(new Matrix4d().rotateY(Math.PI)).apply(part);
        double[] from = faceUp.bounds();
        double[] beside = solid.bounds();
        TriangleMesh placed = new RigidTransform(new Matrix4d().translation(
                beside[3] + GAP_MM - from[0], (beside[1] + beside[4] - from[1] - from[4]) / 2, -from[2])).apply(faceUp);
        int[] palette = new int[MoldRegion.values().length];
        for (MoldRegion region : MoldRegion.values()) {
            palette[region.ordinal()] = region == MoldRegion.TOOL || region == MoldRegion.CAP ? TOOL : BODY;
        }
        return Scene.of("", "", Camera.from(102, 50), new Item(placed, new Paint.Plain(PART)),
                new Item(solid, new Paint.Regions(mold.regions(), palette))).onGround().sized(1080, 576);
    }
}
