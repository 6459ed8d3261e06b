package layupmold.geometry.mesh.prepare;

import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.EdgeGroups;
import layupmold.geometry.mesh.EdgeTopology;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;
import layupmold.geometry.recipe.LengthUnit;
import layupmold.geometry.recipe.Recipe;
import org.joml.Vector3d;

/**
 * Makes of a posted mesh one clean surface: in millimetres, welded, without empty or repeated triangles, without
 * cracks, slivers and pin holes, consistently oriented, taken apart where it is not a manifold, and only its largest
 * piece. O(n log n); the same result on any number of threads.
 */
public final class PartCleaner {

    /** How many pieces or holes get a finding of their own. */
    static final int MOST_LISTED = 10;
    /** A posted mesh whose largest piece is less than this share of its area is no part. */
    private static final double LEAST_SHARE = 0.1;

    private final PartFile file;
    private final LengthUnit unit;
    private final CleaningLog log;
    private Surface surface;
    private Tolerances tolerances;
    private EdgeGroups groups;
    private int[] mate;
    private EdgeTopology topology;
    private List<Piece> others;
    private int flipped;
    private int firstFlipped = -1;

    private PartCleaner(PartFile file, Recipe recipe) {
        this.file = file;
        this.unit = file.unit() != null ? file.unit() : recipe.unit();
        this.log = new CleaningLog(file, unit.inMm());
    }

    /**
     * Cleans a part. The file's own unit wins over the recipe's.
     *
     * @throws Rejection of stage "clean" with code "no-surface", "fragmented" or "one-sided" if there is no one surface
     *     to work with
     */
    public static CleanPart clean(PartFile file, Recipe recipe) {
        PartCleaner cleaner = new PartCleaner(file, recipe);
        cleaner.weld();
        cleaner.dropRepeats();
        cleaner.closeCracks();
        cleaner.orientAndSelect();
        cleaner.separate();
        cleaner.removeSlivers();
        cleaner.fillPinHoles();
        return cleaner.finish();
    }

    private void weld() {
        VertexWelder.Welded welded = VertexWelder.weld(file.mesh().xyz(), unit.inMm());
        int[] triangles = file.mesh().triangles().clone();
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = welded.vertexOf()[triangles[i]];
        }
        int[] posted = new int[triangles.length / 3];
        Arrays.setAll(posted, t -> t);
        log.weldedVertices = file.mesh().vertexCount() - welded.xyz().length / 3;
        surface = new Surface(welded.xyz(), triangles, posted);
        tolerances = Tolerances.of(welded.xyz());
        dropDegenerate();
    }

    private void dropDegenerate() {
        boolean[] proper = TriangleFilter.proper(surface.triangles());
        int dropped = proper.length - TriangleFilter.count(proper);
        if (dropped > 0) {
            log.degenerate(dropped, surface.posted()[firstFalse(proper)]);
            surface = surface.keeping(proper);
        }
        if (surface.triangleCount() == 0) {
            throw noArea();
        }
    }

    private Rejection noArea() {
        return refusal("no-surface", "none of the file's " + file.mesh().triangleCount() + " triangles has an area",
                null, "Export the part again; check that its unit does not round it to nothing.");
    }

    private void dropRepeats() {
        groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
        boolean[] first = TriangleFilter.first(surface.triangles(), groups);
        int dropped = first.length - TriangleFilter.count(first);
        if (dropped > 0) {
            log.duplicate(dropped, surface.posted()[firstFalse(first)]);
            surface = surface.keeping(first);
            groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
        }
    }

    private void closeCracks() {
        CrackCloser.Closed closed = CrackCloser.close(surface, groups, tolerances);
        if (closed.joined() + closed.split() > 0) {
            surface = closed.surface();
            log.cracks(closed.joined(), closed.split(), closed.firstPosted());
            dropDegenerate();
            dropRepeats();
        }
    }

    private void orientAndSelect() {
        mate = groups.mate();
        Orientation.Oriented oriented = Orientation.orient(surface, mate);
        surface = oriented.surface();
        for (int[] group : groups.crowded()) {
            int[] members = group.clone();
            for (int i = 0; i < members.length; i++) {
                members[i] = Orientation.renumbered(members[i], oriented.turned());
            }
            ManifoldSplitter.pair(surface, mate, members);
        }
        if (!groups.crowded().isEmpty()) {
            log.crowded(groups.crowded().size(), log.place(surface.posted()[groups.crowded().get(0)[0] / 3]));
        }
        Components components = Components.of(surface, mate);
        log.components = components.count();
        int kept = components.largest();
        refuseFragments(components, kept);
        boolean[] members = components.members(kept);
        if (oriented.conflicts() > 0 && members[oriented.conflictTriangle()]) {
            throw refusal("one-sided", "the surface joins its own back at " + oriented.conflicts()
                    + " edges, so it has no outside", log.place(surface.posted()[oriented.conflictTriangle()]),
                    "Cut the surface there, or thicken it to a solid.");
        }
        others = components.others(kept, MOST_LISTED);
        log.others(others, components.count() - 1 - others.size());
        keep(members, oriented.turned());
    }

    private void refuseFragments(Components components, int kept) {
        if (!(components.totalArea() > 0)) {
            throw noArea();
        }
        double share = components.area(kept) / components.totalArea();
        if (share < LEAST_SHARE) {
            throw refusal("fragmented", String.format(Locale.ROOT,
                    "the mesh falls into %d pieces, of which the largest has only %.1f %% of the area",
                    components.count(), 100 * share), null,
                    "Join the pieces into one surface where the part was made, and export it again.");
        }
    }

    private void keep(boolean[] members, boolean[] turned) {
        int count = TriangleFilter.count(members);
        boolean[] keptTurned = new boolean[count];
        for (int t = 0, at = 0; t < members.length; t++) {
            if (members[t]) {
                keptTurned[at++] = turned[t];
            }
        }
        if (count < members.length) {
            mate = keepingMates(mate, members);
            surface = surface.keeping(members);
        }
        flipped = TriangleFilter.count(keptTurned);
        for (int t = count - 1; t >= 0; t--) {
            firstFlipped = keptTurned[t] ? surface.posted()[t] : firstFlipped;
        }
    }

    private static int[] keepingMates(int[] mate, boolean[] members) {
        int[] number = new int[members.length];
        int count = 0;
        for (int t = 0; t < members.length; t++) {
            number[t] = members[t] ? count++ : -1;
        }
        int[] kept = new int[3 * count];
        for (int h = 0; h < mate.length; h++) {
            if (members[h / 3]) {
                kept[3 * number[h / 3] + h % 3] = mate[h] < 0 ? mate[h] : 3 * number[mate[h] / 3] + mate[h] % 3;
            }
        }
        return kept;
    }

    /** Doubles vertices, and edges where that is not enough, until the index alone says what belongs together. */
    private void separate() {
        int before = surface.vertexCount();
        surface = ManifoldSplitter.splitVertices(surface, mate);
        log.splitVertices = surface.vertexCount() - before;
        surface = surface.compact();
        topology = topologyOf(surface);
        if (topology.nonManifoldCount() > 0) {
            surface = EdgeDoubler.split(surface, topology, mate);
            topology = topologyOf(surface);
        }
    }

    private static EdgeTopology topologyOf(Surface surface) {
        return EdgeTopology.of(new TriangleMesh(surface.xyz(), surface.triangles()));
    }

    private void removeSlivers() {
        SliverRemover.Removed result = SliverRemover.remove(surface, topology, tolerances.roundingMm());
        log.slivers(result.removed(), result.left(), result.firstTriangle());
        if (result.removed() > 0) {
            surface = result.surface().compact();
            topology = topologyOf(surface);
        }
        if (surface.triangleCount() == 0) {
            throw noArea();
        }
    }

    private void fillPinHoles() {
        double[] box = new TriangleMesh(surface.xyz(), surface.triangles()).bounds();
        double diagonal = Vector3d.distance(box[0], box[1], box[2], box[3], box[4], box[5]);
        List<int[]> holes = PinHoleFiller.find(surface, topology, diagonal);
        for (int[] loop : holes) {
            Vector3d at = new Vector3d();
            for (int h : loop) {
                int v = 3 * topology.from(h);
                at.add(surface.xyz()[v], surface.xyz()[v + 1], surface.xyz()[v + 2]);
            }
            at.div(loop.length);
            log.pinHole(new Place(at.x, at.y, at.z, surface.posted()[loop[0] / 3]),
                    PinHoleFiller.perimeter(surface, topology, loop));
        }
        if (!holes.isEmpty()) {
            surface = PinHoleFiller.fill(surface, topology, holes);
            topology = topologyOf(surface);
        }
    }

    private CleanPart finish() {
        TriangleMesh mesh = new TriangleMesh(surface.xyz(), surface.triangles());
        boolean closed = topology.boundaryCount() == 0;
        if (closed && mesh.volume() < 0) {
            mesh = mesh.flipped();
            topology = EdgeTopology.of(mesh);
            flipped = Math.max(0, mesh.triangleCount() - flipped);
            firstFlipped = surface.posted()[0];
        }
        log.flipped(flipped, mesh.triangleCount(), firstFlipped);
        double[] box = mesh.bounds();
        SizeCheck.check(Math.max(box[3] - box[0], Math.max(box[4] - box[1], box[5] - box[2])), unit)
                .ifPresent(log::add);
        return new CleanPart(mesh, topology, surface.posted(), closed, file.format(), unit, log.counts(), others,
                log.findings());
    }

    private static int firstFalse(boolean[] flags) {
        int first = 0;
        while (flags[first]) {
            first++;
        }
        return first;
    }

    private static Rejection refusal(String code, String message, Place place, String advice) {
        return new Rejection(Finding.error("clean", code, message).at(place).advising(advice));
    }
}
