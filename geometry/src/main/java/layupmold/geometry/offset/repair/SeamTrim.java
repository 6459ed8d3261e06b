package layupmold.geometry.offset.repair;

import com.carrotsearch.hppc.IntArrayList;
import com.carrotsearch.hppc.LongIntHashMap;

/** Cuts a repaired surface off where the face ends and the skirt begins. */
final class SeamTrim {

    private final PatchMesh in;
    private final int faceTriangles;
    private final SurfacePoints points;
    private final IntArrayList triangles = new IntArrayList();
    private final IntArrayList sources = new IntArrayList();
    private final LongIntHashMap cuts = new LongIntHashMap();

    SeamTrim(PatchMesh in, int faceTriangles, SurfacePoints points) {
        this.in = in;
        this.faceTriangles = faceTriangles;
        this.points = points;
    }

    /** Replaces the surface's triangles by what lies on the face's side. */
    void trim() {
        int[] corners = in.triangles.buffer;
        int count = in.sources.size();
        for (int i = 0; i < count; i++) {
            int source = in.sources.get(i);
            if (source >= faceTriangles) {
                continue;
            }
            int a = corners[3 * i];
            int b = corners[3 * i + 1];
            int c = corners[3 * i + 2];
            if (source >= 0) {
                add(a, b, c, source);
            } else {
                trim(a, b, c);
            }
        }
        in.replaceTriangles(triangles, sources);
    }

    private void trim(int a, int b, int c) {
        int[] v = {a, b, c};
        int onFace = 0;
        int onSkirt = 0;
        for (int k = 0; k < 3; k++) {
            onFace += in.side(v[k]) == PatchMesh.FACE ? 1 : 0;
            onSkirt += in.side(v[k]) == PatchMesh.SKIRT ? 1 : 0;
        }
        if (onSkirt == 0) {
            // A triangle all on the seam belongs to whatever lies under its middle.
            if (onFace > 0 || points.nearestTriangle(a, b, c) < faceTriangles) {
                add(a, b, c);
            }
            return;
        }
        if (onFace == 0) {
            return;
        }
        int[] ring = new int[4];
        int n = 0;
        for (int k = 0; k < 3; k++) {
            int from = v[k];
            int to = v[(k + 1) % 3];
            if (in.side(from) != PatchMesh.SKIRT) {
                ring[n++] = from;
            }
            if (in.side(from) * in.side(to) < 0) {
                ring[n++] = cut(from, to);
            }
        }
        for (int k = 1; k + 1 < n; k++) {
            add(ring[0], ring[k], ring[k + 1]);
        }
    }

    private int cut(int from, int to) {
        long key = (long) Math.min(from, to) << 32 | Math.max(from, to);
        if (cuts.containsKey(key)) {
            return cuts.get(key);
        }
        boolean forward = in.side(from) == PatchMesh.FACE;
        int vertex = points.onSeam(forward ? from : to, forward ? to : from);
        cuts.put(key, vertex);
        return vertex;
    }

    private void add(int a, int b, int c) {
        add(a, b, c, points.nearestTriangle(a, b, c));
    }

    private void add(int a, int b, int c, int source) {
        triangles.add(a);
        triangles.add(b);
        triangles.add(c);
        sources.add(source);
    }
}
