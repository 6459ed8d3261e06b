package layupmold.service.farm;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import layupmold.api.farm.LeaseRequest;
import layupmold.api.recipe.PrintMaterial;
import layupmold.geometry.RigidTransform;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.geometry.mesh.io.ThreeMfWriter;
import layupmold.geometry.plate.PlatePacking;
import layupmold.geometry.plate.Silhouette;
import layupmold.service.jobs.MoldRow;
import layupmold.service.jobs.MoldTable;
import layupmold.service.recipe.RecipeReader;
import layupmold.service.settings.FarmSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.joml.Matrix4d;
import org.locationtech.jts.geom.Polygon;
import org.springframework.stereotype.Component;

/**
 * Fills a bed with waiting molds. The most urgent one that fits the printer is always on it and sets the material; the
 * others follow in order of urgency as long as they find room.
 */
@Component
class PlateBuilder {

    static final double USUAL_CLEARANCE_MM = 5;

    private final MoldTable molds;
    private final RecipeReader recipes;
    private final BlobStore store;
    private final FarmSettings settings;

    PlateBuilder(MoldTable molds, RecipeReader recipes, BlobStore store, FarmSettings settings) {
        this.molds = molds;
        this.recipes = recipes;
        this.store = store;
        this.settings = settings;
    }

    private record Piece(TriangleMesh solid, Polygon footprint, PrintMaterial material) {
    }

    /** Empty if none of the copies fits the printer. */
    Optional<Plate> build(List<Copy> waiting, LeaseRequest printer) {
        double clearance = printer.clearanceMm() == null ? USUAL_CLEARANCE_MM : printer.clearanceMm();
        Map<String, Piece> pieces = new HashMap<>();
        List<Copy> candidates = new ArrayList<>();
        PrintMaterial material = null;
        for (Copy copy : waiting) {
            Piece piece = pieces.computeIfAbsent(copy.moldId(), this::piece);
            if (piece != null && printer.materials().contains(piece.material())
                    && (material == null || material == piece.material()) && fits(piece, printer, clearance)) {
                material = piece.material();
                candidates.add(copy);
            }
        }
        if (candidates.isEmpty()) {
            return Optional.empty();
        }
        List<PlateCopy> placed = new ArrayList<>();
        List<ThreeMfWriter.Item> items = new ArrayList<>();
        List<Polygon> footprints = candidates.stream().limit(settings.mostOnPlate())
                .map(copy -> pieces.get(copy.moldId()).footprint()).toList();
        for (PlatePacking.Placed place
                : PlatePacking.pack(footprints, printer.bedXMm(), printer.bedYMm(), clearance)) {
            Copy copy = candidates.get(place.item());
            placed.add(new PlateCopy(copy.jobId(), copy.number(), copy.moldId(), copy.name(), place.xMm(), place.yMm(),
                    place.quarterTurns()));
            items.add(new ThreeMfWriter.Item(pieces.get(copy.moldId()).solid(), null, copy.name(), placement(place)));
        }
        return Optional.of(new Plate(material, placed, write(items, material)));
    }

    private static RigidTransform placement(PlatePacking.Placed place) {
        double[] m = place.toBed().getMatrixEntries();
        return new RigidTransform(new Matrix4d(m[0], m[3], 0, 0, m[1], m[4], 0, 0, 0, 0, 1, 0, m[2], m[5], 0, 1));
    }

    private static boolean fits(Piece piece, LeaseRequest printer, double clearance) {
        double[] box = piece.solid().bounds();
        return box[5] - box[2] <= printer.heightMm() && !PlatePacking.pack(
                List.of(piece.footprint()), printer.bedXMm(), printer.bedYMm(), clearance).isEmpty();
    }

    /** Null for a mold that was deleted meanwhile. */
    private Piece piece(String mold) {
        MoldRow row = molds.find(mold).filter(found -> found.files() != null).orElse(null);
        if (row == null) {
            return null;
        }
        try (InputStream in = store.open(row.files().threeMf().key())) {
            // The 3MF has shared vertices, as a plate must; STL has none.
            TriangleMesh solid = MeshReader.read(in.readAllBytes(), "mold.3mf", MeshLimits.defaults()).mesh();
            return new Piece(solid, Silhouette.of(solid),
                    recipes.readStored(row.recipeJson()).effective().printer().material());
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    private Blob write(List<ThreeMfWriter.Item> items, PrintMaterial material) {
        try {
            return store.put(out -> ThreeMfWriter.write(items,
                    Map.of("Title", "Plate of " + items.size(), "Application", "Layupmold", "material", material.name()), out));
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
