package layupmold.geometry.face;

import static org.junit.jupiter.api.Assertions.assertEquals;

import java.util.Random;
import org.junit.jupiter.api.Test;

class MinimumCutTest {

    /** Against trying every labelling of small random graphs. */
    @Test
    void costsNoMoreThanTheBestOfAllLabellings() {
        Random random = new Random(5);
        for (int round = 0; round < 2000; round++) {
            int nodes = 2 + random.nextInt(9);
            int[] prefer = random.ints(nodes, -20, 21).toArray();
            int arcs = random.nextInt(3 * nodes);
            int[][] joins = new int[arcs][];
            for (int i = 0; i < arcs; i++) {
                joins[i] = new int[] {random.nextInt(nodes), random.nextInt(nodes), random.nextInt(15)};
            }
            assertEquals(bestCost(prefer, joins), cost(prefer, joins, solve(prefer, joins)), "round " + round);
        }
    }

    /** A long chain pulled at its ends by unequal weights breaks at its one weak link. */
    @Test
    void breaksALongChainAtItsWeakestLink() {
        int nodes = 100_000;
        int[] prefer = new int[nodes];
        prefer[0] = 50;
        prefer[nodes - 1] = -50;
        int[][] joins = new int[nodes - 1][];
        for (int i = 0; i < nodes - 1; i++) {
            joins[i] = new int[] {i, i + 1, i == 70_000 ? 3 : 9};
        }
        boolean[] source = solve(prefer, joins);
        for (int i = 0; i < nodes; i++) {
            assertEquals(i <= 70_000, source[i], "node " + i);
        }
    }

    private static boolean[] solve(int[] prefer, int[][] joins) {
        MinimumCut cut = new MinimumCut(prefer.length);
        for (int v = 0; v < prefer.length; v++) {
            cut.prefer(v, prefer[v]);
        }
        for (int[] join : joins) {
            if (join[0] != join[1]) {
                cut.join(join[0], join[1], join[2]);
            }
        }
        return cut.solve();
    }

    private static int bestCost(int[] prefer, int[][] joins) {
        int best = Integer.MAX_VALUE;
        for (int mask = 0; mask < 1 << prefer.length; mask++) {
            boolean[] source = new boolean[prefer.length];
            for (int v = 0; v < source.length; v++) {
                source[v] = (mask >> v & 1) == 1;
            }
            best = Math.min(best, cost(prefer, joins, source));
        }
        return best;
    }

    private static int cost(int[] prefer, int[][] joins, boolean[] source) {
        int cost = 0;
        for (int v = 0; v < prefer.length; v++) {
            cost += source[v] ? Math.max(0, -prefer[v]) : Math.max(0, prefer[v]);
        }
        for (int[] join : joins) {
            cost += source[join[0]] != source[join[1]] ? join[2] : 0;
        }
        return cost;
    }
}
