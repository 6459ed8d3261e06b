package layupmold.service.batch;

import java.io.IOException;
import java.time.Duration;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import layupmold.geometry.congruence.Congruence;
import layupmold.geometry.congruence.Isometry;
import layupmold.geometry.congruence.WeldedShape;
import layupmold.service.settings.JobSettings;
import layupmold.service.store.Blob;
import org.springframework.stereotype.Component;

/**
 * Finds the parts of a suit that are one shape, moved or mirrored, whatever they are called. Only parts with the same
 * recipe (but for its title) share a mold.
 *
 * <p>Every file is read once to count it; only parts of equal counts are read again and compared, each with the first of
 * every shape so far. At most two meshes and the models of one group are in memory.
 */
@Component
class SuitSorter {

    private static final double TOLERANCE_MM = Congruence.DEFAULT_TOLERANCE_MM;
    /** Of all models of a group: what is compared stays in memory, a few dozen bytes a vertex. */
    private static final long MOST_MODEL_VERTICES = 2_000_000;

    private final PartShapes shapes;
    private final SameWork sameWork;
    private final Duration limit;

    SuitSorter(PartShapes shapes, SameWork sameWork, JobSettings settings) {
        this.shapes = shapes;
        this.sameWork = sameWork;
        this.limit = settings.timeLimit();
    }

    /** What parts must agree in before they are compared. */
    private record Bucket(String work, int vertices, int triangles) {
    }

    private record Model(PartRow part, WeldedShape shape) {
    }

    /** In the order of the parts; a part never takes over from one that itself takes over. */
    List<SortedPart> sort(List<PartRow> parts) throws IOException {
        long end = System.nanoTime() + limit.toNanos();
        Map<Integer, SortedPart> sorted = new HashMap<>();
        for (List<PartRow> bucket : buckets(parts, sorted).values()) {
            if (bucket.size() == 1) {
                sorted.put(bucket.get(0).position(), SortedPart.alone(bucket.get(0), bucket.get(0).mesh(), null));
            } else {
                compare(bucket, sorted, end);
            }
        }
        Map<String, SortedPart> byName = new HashMap<>();
        sorted.values().forEach(part -> byName.put(key(part.part().name()), part));
        List<SortedPart> result = new ArrayList<>();
        for (PartRow part : parts) {
            SortedPart found = sorted.get(part.position());
            SortedPart other = part.mirrorOf() == null ? null : byName.get(key(part.mirrorOf()));
            result.add(found == null ? withoutFile(part, other) : noted(found, other));
        }
        return result;
    }

    /** Every part made by itself. */
    static List<SortedPart> alone(List<PartRow> parts, PartShapes shapes) throws IOException {
        Map<String, PartRow> byName = new HashMap<>();
        parts.forEach(part -> byName.put(key(part.name()), part));
        List<SortedPart> result = new ArrayList<>();
        for (PartRow part : parts) {
            Blob mesh = part.mesh();
            if (mesh == null) {
                PartRow other = byName.get(key(part.mirrorOf()));
                mesh = shapes.mirrored(other).orElse(other.mesh());
            }
            result.add(SortedPart.alone(part, mesh, "The parts of this suit could not be compared by shape."));
        }
        return result;
    }

    private Map<Bucket, List<PartRow>> buckets(List<PartRow> parts, Map<Integer, SortedPart> sorted) throws IOException {
        Map<Bucket, List<PartRow>> buckets = new LinkedHashMap<>();
        for (PartRow part : parts) {
            if (part.mesh() == null) {
                continue;
            }
            Optional<WeldedShape> shape = shapes.read(part);
            if (shape.isPresent()) {
                buckets.computeIfAbsent(new Bucket(sameWork.key(part.recipeJson()), shape.get().vertexCount(),
                        shape.get().triangleCount()), key -> new ArrayList<>()).add(part);
            } else {
                sorted.put(part.position(), SortedPart.alone(part, part.mesh(), null));
            }
        }
        return buckets;
    }

    private void compare(List<PartRow> bucket, Map<Integer, SortedPart> sorted, long end) throws IOException {
        List<Model> models = new ArrayList<>();
        long vertices = 0;
        for (PartRow part : bucket) {
            if (System.nanoTime() - end > 0) {
                sorted.put(part.position(), SortedPart.alone(part, part.mesh(),
                        "It was not compared with the others: that took too long."));
                continue;
            }
            WeldedShape shape = shapes.read(part).orElseThrow();
            SortedPart found = null;
            for (Model model : models) {
                Optional<Congruence.Match> match = match(model, part, shape);
                if (match.isPresent() && sameWork.holds(part.recipeJson(), match.get().map(), TOLERANCE_MM)) {
                    found = new SortedPart(part, part.mesh(), model.part().position(), match.get(), null);
                    break;
                }
            }
            if (found == null && (models.isEmpty() || vertices + shape.vertexCount() <= MOST_MODEL_VERTICES)) {
                models.add(new Model(part, shape));
                vertices += shape.vertexCount();
            }
            sorted.put(part.position(), found == null ? SortedPart.alone(part, part.mesh(), null) : found);
        }
    }

    private static Optional<Congruence.Match> match(Model model, PartRow part, WeldedShape shape) {
        return model.part().mesh().key().equals(part.mesh().key())
                ? Optional.of(new Congruence.Match(Isometry.identity(), 0))
                : Congruence.find(model.shape(), shape, TOLERANCE_MM);
    }

    /** A part given only as another one's mirror image: its mesh is made, and how it came about is known. */
    private SortedPart withoutFile(PartRow part, SortedPart other) throws IOException {
        Optional<Blob> mesh = shapes.mirrored(other.part());
        if (mesh.isEmpty()) {
            return SortedPart.alone(part, other.mesh(), "The file of " + other.part().name() + " cannot be read.");
        }
        boolean sameRecipe = sameWork.key(part.recipeJson()).equals(sameWork.key(other.part().recipeJson()));
        Isometry map = other.match() == null ? Isometry.mirrorX() : other.match().map().then(Isometry.mirrorX());
        if (!sameRecipe || !sameWork.holds(part.recipeJson(), map, TOLERANCE_MM)) {
            return SortedPart.alone(part, mesh.get(), null);
        }
        double deviation = other.match() == null ? 0 : other.match().deviationMm();
        int model = other.model() < 0 ? other.part().position() : other.model();
        return new SortedPart(part, mesh.get(), model, new Congruence.Match(map, deviation), null);
    }

    private static SortedPart noted(SortedPart part, SortedPart named) {
        if (named == null || family(part) == family(named) || part.note() != null) {
            return part;
        }
        return new SortedPart(part.part(), part.mesh(), part.model(), part.match(), String.format(Locale.ROOT,
                "The manifest calls it the mirror image of %s, but shape or recipe differ (more than %.2f mm): it has a "
                        + "mold of its own.", named.part().name(), TOLERANCE_MM));
    }

    private static int family(SortedPart part) {
        return part.model() < 0 ? part.part().position() : part.model();
    }

    private static String key(String name) {
        return name.toLowerCase(Locale.ROOT);
    }
}
