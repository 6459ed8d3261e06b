package layupmold.geometry.mesh.prepare;

import java.util.ArrayList;
import java.util.List;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Place;
import layupmold.geometry.mesh.TriangleMesh;
import layupmold.geometry.mesh.io.PartFile;

/** Counts and findings as cleaning goes along. */
final class CleaningLog {

    private final TriangleMesh posted;
    private final double scale;
    private final List<Finding> findings;
    int weldedVertices;
    int degenerate;
    int duplicate;
    int flipped;
    int components;
    int crowdedEdges;
    int splitVertices;
    int cracks;
    int tJunctions;
    int slivers;
    int pinHoles;

    CleaningLog(PartFile file, double scale) {
        this.posted = file.mesh();
        this.scale = scale;
        this.findings = new ArrayList<>(file.findings());
    }

    void add(Finding finding) {
        findings.add(finding);
    }

    /** The middle of a posted triangle, mm; null for one that a repair made. */
    Place place(int postedTriangle) {
        if (postedTriangle < 0) {
            return null;
        }
        var middle = posted.centroid(postedTriangle).mul(scale);
        return new Place(middle.x, middle.y, middle.z, postedTriangle);
    }

    private void repaired(int count, String code, String what, Place where) {
        if (count > 0) {
            findings.add(Finding.info("clean", code, count + what).at(where).measured(count, null, "1"));
        }
    }

    void degenerate(int count, int firstPosted) {
        degenerate += count;
        repaired(count, "triangles-degenerate", " triangles with two corners in one place were dropped",
                place(firstPosted));
    }

    void duplicate(int count, int firstPosted) {
        duplicate += count;
        repaired(count, "triangles-repeated", " repeated triangles were dropped", place(firstPosted));
    }

    void cracks(int joined, int split, int firstPosted) {
        cracks += joined;
        tJunctions += split;
        repaired(joined, "cracks-closed", " vertices were joined across cracks finer than the file's rounding", null);
        repaired(split, "t-junctions-resolved", " corners lying on another triangle's edge were joined to it",
                place(firstPosted));
    }

    void slivers(int removed, int left, int firstPosted) {
        slivers += removed;
        repaired(removed, "slivers-removed", " triangles without height were removed", place(firstPosted));
        repaired(left, "slivers-left", " triangles without height could not be removed", place(firstPosted));
    }

    void pinHole(Place where, double perimeterMm) {
        pinHoles++;
        if (pinHoles <= PartCleaner.MOST_LISTED) {
            findings.add(Finding.warning("clean", "pin-hole-closed", "a hole of " + SizeText.of(perimeterMm)
                    + " mm around was closed").at(where).measured(perimeterMm, null, "mm")
                    .advising("If it is meant as an opening, make it larger or drill the laminate there."));
        }
    }

    void flipped(int count, int of, int firstPosted) {
        flipped = count;
        repaired(count, "triangles-flipped", " of " + of + " triangles were turned around to agree and face outward",
                place(firstPosted));
    }

    void crowded(int edges, Place where) {
        crowdedEdges = edges;
        if (edges > 0) {
            findings.add(Finding.warning("clean", "edges-non-manifold",
                    edges + " edges have more than two triangles; the surface was taken apart there")
                    .at(where).measured(edges, 0.0, "1")
                    .advising("Look at these places: walls that only touch, or sheets standing on the part."));
        }
    }

    void others(List<Piece> pieces, int silent) {
        for (Piece piece : pieces) {
            findings.add(Finding.warning("clean", "piece-left-out", "a separate piece of "
                    + SizeText.of(piece.sizeMm()) + " mm, " + piece.triangles()
                    + " triangles, was left out; only the largest is used")
                    .at(piece.place()).measured(piece.areaMm2(), null, "mm2")
                    .advising("Join it to the part, or post it as a part of its own."));
        }
        if (silent > 0) {
            findings.add(Finding.warning("clean", "pieces-left-out", silent + " more, smaller pieces were left out"));
        }
    }

    CleaningCounts counts() {
        return new CleaningCounts(posted.triangleCount(), posted.vertexCount(), weldedVertices, degenerate, duplicate,
                flipped, components, crowdedEdges, splitVertices, cracks, tJunctions, slivers, pinHoles);
    }

    List<Finding> findings() {
        return findings;
    }
}
