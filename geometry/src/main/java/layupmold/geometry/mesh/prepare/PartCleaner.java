package layupmold.geometry.mesh.prepare;

import java.util.ArrayList;
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
 * Makes of a posted mesh one clean surface: in millimetres, welded, without empty or repeated triangles, consistently
 * oriented, taken apart where it is not a manifold, and only its largest piece. O(n log n); the same result on any
 * number of threads.
 */
public final class PartCleaner {

    private static final int MOST_LISTED = 10;
    /** A posted mesh whose largest piece is less than this share of its area is no part. */
    private static final double LEAST_SHARE = 0.1;

    private final PartFile file;
    private final LengthUnit unit;
    private final List<Finding> findings = new ArrayList<>();
    private int weldedVertices;
    private int degenerate;
    private int duplicate;
    private int crowdedEdges;

    private PartCleaner(PartFile file, Recipe recipe) {
        this.file = file;
        this.unit = file.unit() != null ? file.unit() : recipe.unit();
        findings.addAll(file.findings());
    }

    /**
     * Cleans a part. The file's own unit wins over the recipe's.
     *
     * @throws Rejection of stage "clean" with code "no-surface", "fragmented" or "one-sided" if there is no one surface
     *     to work with
     */
    public static CleanPart clean(PartFile file, Recipe recipe) {
        return new PartCleaner(file, recipe).run();
    }

    private CleanPart run() {
        Surface surface = weld();
        EdgeGroups groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
        boolean[] first = TriangleFilter.first(surface.triangles(), groups);
        duplicate = first.length - TriangleFilter.count(first);
        if (duplicate > 0) {
            surface = surface.keeping(first);
            groups = EdgeGroups.of(surface.triangles(), surface.vertexCount());
        }
        if (surface.triangleCount() == 0) {
            throw refuse("no-surface", "none of the file's " + file.mesh().triangleCount() + " triangles has an area",
                    null, "Export the part again; check that its unit does not round it to nothing.");
        }
        return orientAndSelect(surface, groups);
    }

    private Surface weld() {
        VertexWelder.Welded welded = VertexWelder.weld(file.mesh().xyz(), unit.inMm());
        int[] posted = file.mesh().triangles();
        int[] triangles = new int[posted.length];
        int[] index = new int[triangles.length / 3];
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = welded.vertexOf()[posted[i]];
        }
        for (int t = 0; t < index.length; t++) {
            index[t] = t;
        }
        weldedVertices = file.mesh().vertexCount() - welded.xyz().length / 3;
        Surface surface = new Surface(welded.xyz(), triangles, index);
        boolean[] proper = TriangleFilter.proper(triangles);
        degenerate = proper.length - TriangleFilter.count(proper);
        return degenerate > 0 ? surface.keeping(proper) : surface;
    }

    private CleanPart orientAndSelect(Surface posted, EdgeGroups groups) {
        int[] mate = groups.mate();
        Orientation.Oriented oriented = Orientation.orient(posted, mate);
        Surface surface = oriented.surface();
        crowdedEdges = groups.crowded().size();
        for (int[] group : groups.crowded()) {
            int[] members = group.clone();
            for (int i = 0; i < members.length; i++) {
                members[i] = Orientation.renumbered(members[i], oriented.turned());
            }
            ManifoldSplitter.pair(surface, mate, members);
        }
        Components components = Components.of(surface, mate);
        int kept = components.largest();
        refuseFragments(components, kept);
        refuseOneSided(oriented, components.members(kept), surface);
        if (crowdedEdges > 0) {
            reportCrowded(surface, groups.crowded().get(0));
        }
        return finish(surface, mate, oriented.turned(), components, kept);
    }

    private void refuseFragments(Components components, int kept) {
        double share = components.area(kept) / components.totalArea();
        if (!(components.totalArea() > 0)) {
            throw refuse("no-surface", "the part's triangles have no area", null, "Export the part again.");
        }
        if (share < LEAST_SHARE) {
            throw refuse("fragmented", String.format(Locale.ROOT,
                    "the mesh falls into %d pieces, of which the largest has only %.1f %% of the area",
                    components.count(), 100 * share), null,
                    "Join the pieces into one surface where the part was made, and export it again.");
        }
    }

    private void refuseOneSided(Orientation.Oriented oriented, boolean[] members, Surface surface) {
        if (oriented.conflicts() > 0 && members[oriented.conflictTriangle()]) {
            throw refuse("one-sided", "the surface joins its own back at " + oriented.conflicts()
                    + " edges, so it has no outside", middle(surface, oriented.conflictTriangle()),
                    "Cut the surface there, or thicken it to a solid.");
        }
    }

    private void reportCrowded(Surface surface, int[] group) {
        findings.add(Finding.warning("clean", "edges-non-manifold",
                crowdedEdges + " edges have more than two triangles; the surface was taken apart there")
                .at(middle(surface, group[0] / 3)).measured(crowdedEdges, 0.0, "1")
                .advising("Look at these places: walls that only touch, or sheets standing on the part."));
    }

    private CleanPart finish(Surface all, int[] mate, boolean[] turned, Components components, int kept) {
        boolean[] members = components.members(kept);
        Surface piece = all;
        int[] pieceMate = mate;
        if (components.count() > 1) {
            piece = all.keeping(members);
            pieceMate = keepingMates(mate, members);
        }
        int flipped = 0;
        for (int t = 0; t < members.length; t++) {
            flipped += members[t] && turned[t] ? 1 : 0;
        }
        boolean closed = java.util.Arrays.stream(pieceMate).allMatch(g -> g >= 0);
        Surface split = ManifoldSplitter.splitVertices(piece, pieceMate);
        int splitVertices = split.vertexCount() - piece.vertexCount();
        split = split.compact();
        TriangleMesh mesh = new TriangleMesh(split.xyz(), split.triangles());
        if (closed && mesh.volume() < 0) {
            mesh = mesh.flipped();
            flipped = mesh.triangleCount() - flipped;
        }
        EdgeTopology topology = EdgeTopology.of(mesh);
        refuseInseparable(mesh, topology, split.posted());
        List<Piece> others = components.others(kept, MOST_LISTED);
        report(mesh, components, others, flipped);
        CleaningCounts counts = new CleaningCounts(file.mesh().triangleCount(), file.mesh().vertexCount(),
                weldedVertices, degenerate, duplicate, flipped, components.count(), crowdedEdges, splitVertices, 0, 0,
                0, 0);
        return new CleanPart(mesh, topology, split.posted(), closed, file.format(), unit, counts, others, findings);
    }

    private static void refuseInseparable(TriangleMesh mesh, EdgeTopology topology, int[] posted) {
        for (int h = 0; topology.nonManifoldCount() > 0 && h < topology.halfEdgeCount(); h++) {
            if (topology.twin(h) == EdgeTopology.NON_MANIFOLD) {
                Vector3d at = mesh.vertex(topology.from(h)).lerp(mesh.vertex(topology.to(h)), 0.5);
                throw refuse("edges-non-manifold", topology.nonManifoldCount()
                        + " edges have more than two triangles and the surface cannot be taken apart there",
                        new Place(at.x, at.y, at.z, posted[h / 3]),
                        "Separate the surfaces that share an edge there.");
            }
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

    private void report(TriangleMesh mesh, Components components, List<Piece> others, int flipped) {
        double[] box = mesh.bounds();
        double largest = Math.max(box[3] - box[0], Math.max(box[4] - box[1], box[5] - box[2]));
        SizeCheck.check(largest, unit).ifPresent(findings::add);
        if (degenerate > 0) {
            findings.add(Finding.info("clean", "triangles-degenerate", degenerate
                    + " triangles without area were dropped"));
        }
        if (duplicate > 0) {
            findings.add(Finding.info("clean", "triangles-repeated", duplicate + " repeated triangles were dropped"));
        }
        if (flipped > 0) {
            findings.add(Finding.info("clean", "triangles-flipped", flipped + " of " + mesh.triangleCount()
                    + " triangles were turned around to agree, and to face outward"));
        }
        for (Piece piece : others) {
            findings.add(Finding.warning("clean", "piece-left-out", "a separate piece of " + SizeText.of(piece.sizeMm())
                    + " mm, " + piece.triangles() + " triangles, was left out; only the largest is used")
                    .at(piece.place()).measured(piece.areaMm2(), null, "mm2")
                    .advising("Join it to the part, or post it as a part of its own."));
        }
        int silent = components.count() - 1 - others.size();
        if (silent > 0) {
            findings.add(Finding.warning("clean", "pieces-left-out", silent + " more, smaller pieces were left out"));
        }
    }

    private static Place middle(Surface surface, int t) {
        double[] sum = new double[3];
        for (int i = 3 * t; i < 3 * t + 3; i++) {
            for (int k = 0; k < 3; k++) {
                sum[k] += surface.xyz()[3 * surface.triangles()[i] + k] / 3;
            }
        }
        return new Place(sum[0], sum[1], sum[2], surface.posted()[t]);
    }

    private static Rejection refuse(String code, String message, Place place, String advice) {
        return new Rejection(Finding.error("clean", code, message).at(place).advising(advice));
    }
}
