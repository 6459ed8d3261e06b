package layupmold.service.batch;

import java.io.IOException;
import java.io.InputStream;
import java.util.Optional;
import layupmold.geometry.congruence.WeldedShape;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.mesh.io.StlWriter;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.JobSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/** Reads the meshes of a suit's parts for comparison. */
@Component
class PartShapes {

    private final BlobStore store;
    private final RecipeReader recipes;
    private final MeshLimits limits;

    PartShapes(BlobStore store, RecipeReader recipes, JobSettings settings) {
        MeshLimits most = MeshLimits.defaults();
        this.limits = new MeshLimits(most.maxBytes(), settings.maxTriangles(), 3 * settings.maxTriangles(),
                most.maxDecompressedBytes());
        this.store = store;
        this.recipes = recipes;
    }

    /** Empty for a file that is no mesh; its own job will say why. */
    Optional<WeldedShape> read(PartRow part) throws IOException {
        try {
            return Optional.of(WeldedShape.of(file(part), unit(part)));
        } catch (Rejection | IllegalArgumentException unreadable) {
            return Optional.empty();
        }
    }

    /** The mirror image of a part's mesh across x = 0 as binary STL in its recipe's unit; empty if it is no mesh. */
    Optional<Blob> mirrored(PartRow part) throws IOException {
        PartFile file;
        try {
            file = file(part);
        } catch (Rejection unreadable) {
            return Optional.empty();
        }
        double scale = file.unit() == null ? 1 : file.unit().inMm() / unit(part).inMm();
        double[] xyz = file.mesh().xyz().clone();
        for (int i = 0; i < xyz.length; i++) {
            xyz[i] *= i % 3 == 0 ? -scale : scale;
        }
        TriangleMesh mirrored = new TriangleMesh(xyz, file.mesh().triangles()).flipped();
        return Optional.of(store.put(out -> StlWriter.write(mirrored, "mirror image", out)));
    }

    private PartFile file(PartRow part) throws IOException {
        try (InputStream in = store.open(part.mesh().key())) {
            return MeshReader.read(in.readAllBytes(), part.file(), limits);
        }
    }

    private LengthUnit unit(PartRow part) {
        return recipes.readStored(part.recipeJson()).geometry().unit();
    }
}
