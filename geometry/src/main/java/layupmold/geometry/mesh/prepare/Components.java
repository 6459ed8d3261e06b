package layupmold.geometry.mesh.prepare;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import layupmold.geometry.finding.Place;
import org.joml.Vector3d;

/** Connected pieces of a surface, joined across mated edges. O(n). */
final class Components {

    private final Surface surface;
    private final int[] pieceOf;
    private final List<Integer> seeds = new ArrayList<>();
    private final List<Integer> sizes = new ArrayList<>();
    private final List<Double> areas = new ArrayList<>();

    private Components(Surface surface, int[] mate) {
        this.surface = surface;
        this.pieceOf = new int[surface.triangleCount()];
        int[] queue = new int[pieceOf.length];
        for (int t = 0; t < pieceOf.length; t++) {
            if (pieceOf[t] == 0) {
                flood(t, mate, queue);
            }
        }
    }

    static Components of(Surface surface, int[] mate) {
        return new Components(surface, mate);
    }

    private void flood(int seed, int[] mate, int[] queue) {
        int label = seeds.size() + 1;
        int head = 0;
        int tail = 0;
        queue[tail++] = seed;
        pieceOf[seed] = label;
        double area = 0;
        while (head < tail) {
            int t = queue[head++];
            area += surface.twiceArea(t);
            for (int h = 3 * t; h < 3 * t + 3; h++) {
                int s = mate[h] < 0 ? t : mate[h] / 3;
                if (pieceOf[s] == 0) {
                    pieceOf[s] = label;
                    queue[tail++] = s;
                }
            }
        }
        seeds.add(seed);
        sizes.add(tail);
        areas.add(area / 2);
    }

    int count() {
        return seeds.size();
    }

    /** Piece with the most area; the first of equals. */
    int largest() {
        int best = 0;
        for (int i = 1; i < areas.size(); i++) {
            best = areas.get(i) > areas.get(best) ? i : best;
        }
        return best;
    }

    double area(int piece) {
        return areas.get(piece);
    }

    double totalArea() {
        return areas.stream().mapToDouble(a -> a).sum();
    }

    boolean[] members(int piece) {
        boolean[] members = new boolean[pieceOf.length];
        for (int t = 0; t < members.length; t++) {
            members[t] = pieceOf[t] == piece + 1;
        }
        return members;
    }

    /** The pieces but {@code kept} with the most area, largest first. */
    List<Piece> others(int kept, int most) {
        List<Integer> order = new ArrayList<>();
        for (int i = 0; i < count(); i++) {
            if (i != kept) {
                order.add(i);
            }
        }
        order.sort(Comparator.<Integer>comparingDouble(i -> -areas.get(i)).thenComparing(i -> i));
        List<Integer> shown = order.subList(0, Math.min(most, order.size()));
        int[] rank = new int[count()];
        for (int i = 0; i < shown.size(); i++) {
            rank[shown.get(i)] = i + 1;
        }
        double[][] boxes = boxes(rank, shown.size());
        List<Piece> pieces = new ArrayList<>();
        for (int i = 0; i < shown.size(); i++) {
            double[] box = boxes[i];
            int piece = shown.get(i);
            Place place = new Place((box[0] + box[3]) / 2, (box[1] + box[4]) / 2, (box[2] + box[5]) / 2,
                    surface.posted()[seeds.get(piece)]);
            pieces.add(new Piece(place, new Vector3d(box[3] - box[0], box[4] - box[1], box[5] - box[2]),
                    areas.get(piece), sizes.get(piece)));
        }
        return pieces;
    }

    private double[][] boxes(int[] rank, int count) {
        double[][] boxes = new double[count][];
        for (int i = 0; i < count; i++) {
            boxes[i] = new double[] {1, 1, 1, -1, -1, -1};
            java.util.Arrays.fill(boxes[i], 0, 3, Double.POSITIVE_INFINITY);
            java.util.Arrays.fill(boxes[i], 3, 6, Double.NEGATIVE_INFINITY);
        }
        for (int t = 0; t < pieceOf.length; t++) {
            if (rank[pieceOf[t] - 1] == 0) {
                continue;
            }
            double[] box = boxes[rank[pieceOf[t] - 1] - 1];
            for (int i = 3 * t; i < 3 * t + 3; i++) {
                for (int k = 0; k < 3; k++) {
                    double c = surface.xyz()[3 * surface.triangles()[i] + k];
                    box[k] = Math.min(box[k], c);
                    box[3 + k] = Math.max(box[3 + k], c);
                }
            }
        }
        return boxes;
    }
}
