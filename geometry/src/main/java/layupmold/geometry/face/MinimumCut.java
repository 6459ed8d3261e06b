package layupmold.geometry.face;

import java.util.Arrays;

/**
 * Minimum s-t cut on a sparse graph whose nodes carry source and sink capacities.
 *
 * <p>Augmenting paths grown from two search trees that are repaired instead of rebuilt (Boykov and Kolmogorov, "An
 * experimental comparison of min-cut/max-flow algorithms", 2004). Integer capacities, so that it ends and is exact.
 * Deterministic: the cut is the one nearest the source.
 */
final class MinimumCut {

    private static final int NONE = -1;
    private static final int TERMINAL = -2;
    private static final int ORPHAN = -3;
    private static final byte FREE = 0;
    private static final byte SOURCE = 1;
    private static final byte SINK = 2;

    private final int nodeCount;
    /** Positive: capacity left from the source; negative: to the sink. */
    private final int[] terminal;
    private int[] head = new int[1024];
    private int[] capacity = new int[1024];
    private int[] nextArc = new int[1024];
    private int arcCount;
    private final int[] firstArc;
    /** Arc from a node to its parent. */
    private final int[] parent;
    private final byte[] tree;
    private final int[] distance;
    private final int[] stamp;
    private int time;
    private final int[] nextActive;
    private int activeHead = NONE;
    private int activeTail = NONE;
    private int[] orphans = new int[256];
    private int orphanHead;
    private int orphanTail;

    MinimumCut(int nodeCount) {
        this.nodeCount = nodeCount;
        terminal = new int[nodeCount];
        firstArc = filled(nodeCount);
        parent = filled(nodeCount);
        nextActive = filled(nodeCount);
        tree = new byte[nodeCount];
        distance = new int[nodeCount];
        stamp = new int[nodeCount];
    }

    private static int[] filled(int n) {
        int[] a = new int[n];
        Arrays.fill(a, NONE);
        return a;
    }

    /** Price of putting {@code node} on the sink's side if positive, on the source's side if negative. */
    void prefer(int node, int price) {
        terminal[node] += price;
    }

    /** Price of separating {@code a} from {@code b}, either way round. */
    void join(int a, int b, int price) {
        if (arcCount + 2 > head.length) {
            int size = 2 * head.length;
            head = Arrays.copyOf(head, size);
            capacity = Arrays.copyOf(capacity, size);
            nextArc = Arrays.copyOf(nextArc, size);
        }
        addArc(a, b, price);
        addArc(b, a, price);
    }

    private void addArc(int from, int to, int price) {
        head[arcCount] = to;
        capacity[arcCount] = price;
        nextArc[arcCount] = firstArc[from];
        firstArc[from] = arcCount++;
    }

    /** Solves; true for nodes on the source's side. */
    boolean[] solve() {
        for (int v = 0; v < nodeCount; v++) {
            if (terminal[v] != 0) {
                tree[v] = terminal[v] > 0 ? SOURCE : SINK;
                parent[v] = TERMINAL;
                distance[v] = 1;
                activate(v);
            }
        }
        int current = NONE;
        while (true) {
            if (current == NONE || tree[current] == FREE) {
                current = takeActive();
                if (current == NONE) {
                    break;
                }
            }
            int bridge = grow(current);
            time++;
            if (bridge == NONE) {
                current = NONE;
                continue;
            }
            augment(bridge);
            adopt();
        }
        boolean[] source = new boolean[nodeCount];
        for (int v = 0; v < nodeCount; v++) {
            source[v] = tree[v] == SOURCE;
        }
        return source;
    }

    private void activate(int v) {
        if (nextActive[v] != NONE) {
            return;
        }
        nextActive[v] = v;
        if (activeTail == NONE) {
            activeHead = v;
        } else {
            nextActive[activeTail] = v;
        }
        activeTail = v;
    }

    private int takeActive() {
        while (activeHead != NONE) {
            int v = activeHead;
            activeHead = nextActive[v] == v ? NONE : nextActive[v];
            if (activeHead == NONE) {
                activeTail = NONE;
            }
            nextActive[v] = NONE;
            if (tree[v] != FREE) {
                return v;
            }
        }
        return NONE;
    }

    /** Extends the tree at {@code v}; the arc from the source's to the sink's tree where they met, or NONE. */
    private int grow(int v) {
        for (int a = firstArc[v]; a != NONE; a = nextArc[a]) {
            int forward = tree[v] == SOURCE ? a : a ^ 1;
            if (capacity[forward] == 0) {
                continue;
            }
            int w = head[a];
            if (tree[w] == FREE) {
                tree[w] = tree[v];
                parent[w] = a ^ 1;
                stamp[w] = stamp[v];
                distance[w] = distance[v] + 1;
                activate(w);
            } else if (tree[w] != tree[v]) {
                return forward;
            } else if (stamp[w] <= stamp[v] && distance[w] > distance[v] + 1) {
                parent[w] = a ^ 1;
                stamp[w] = stamp[v];
                distance[w] = distance[v] + 1;
            }
        }
        return NONE;
    }

    private void augment(int bridge) {
        int flow = capacity[bridge];
        int v = head[bridge ^ 1];
        for (; parent[v] != TERMINAL; v = head[parent[v]]) {
            flow = Math.min(flow, capacity[parent[v] ^ 1]);
        }
        flow = Math.min(flow, terminal[v]);
        for (v = head[bridge]; parent[v] != TERMINAL; v = head[parent[v]]) {
            flow = Math.min(flow, capacity[parent[v]]);
        }
        flow = Math.min(flow, -terminal[v]);

        capacity[bridge] -= flow;
        capacity[bridge ^ 1] += flow;
        push(head[bridge ^ 1], flow, 1);
        push(head[bridge], flow, 0);
    }

    /** Carries {@code flow} along the tree path of {@code v}; {@code reverse} is 1 in the source's tree. */
    private void push(int v, int flow, int reverse) {
        while (parent[v] != TERMINAL) {
            int a = parent[v] ^ reverse;
            capacity[a] -= flow;
            capacity[a ^ 1] += flow;
            int up = head[parent[v]];
            if (capacity[a] == 0) {
                orphan(v);
            }
            v = up;
        }
        terminal[v] += reverse == 1 ? -flow : flow;
        if (terminal[v] == 0) {
            orphan(v);
        }
    }

    private void orphan(int v) {
        parent[v] = ORPHAN;
        if (orphanTail == orphans.length) {
            if (orphanHead > 0) {
                System.arraycopy(orphans, orphanHead, orphans, 0, orphanTail - orphanHead);
                orphanTail -= orphanHead;
                orphanHead = 0;
            }
            if (2 * orphanTail > orphans.length) {
                orphans = Arrays.copyOf(orphans, 2 * orphans.length);
            }
        }
        orphans[orphanTail++] = v;
    }

    private void adopt() {
        while (orphanHead < orphanTail) {
            int v = orphans[orphanHead++];
            int best = findParent(v);
            if (best != NONE) {
                parent[v] = best;
                stamp[v] = time;
                distance[v] = distance[head[best]] + 1;
            } else {
                release(v);
            }
        }
        orphanHead = 0;
        orphanTail = 0;
    }

    private int findParent(int v) {
        int best = NONE;
        int least = Integer.MAX_VALUE;
        for (int a = firstArc[v]; a != NONE; a = nextArc[a]) {
            int w = head[a];
            int inward = tree[v] == SOURCE ? a ^ 1 : a;
            if (capacity[inward] != 0 && tree[w] == tree[v] && parent[w] != NONE && parent[w] != ORPHAN) {
                int d = depth(w);
                if (d < least) {
                    least = d;
                    best = a;
                }
            }
        }
        return best;
    }

    /** Steps from {@code w} to its terminal, or MAX_VALUE if its path ends in an orphan; marks the path's nodes. */
    private int depth(int w) {
        int steps = 0;
        int u = w;
        while (stamp[u] != time) {
            steps++;
            if (parent[u] == TERMINAL) {
                stamp[u] = time;
                distance[u] = 1;
                break;
            }
            if (parent[u] == ORPHAN) {
                return Integer.MAX_VALUE;
            }
            u = head[parent[u]];
            if (stamp[u] == time) {
                steps += distance[u];
            }
        }
        if (steps == 0) {
            return distance[w];
        }
        int d = steps;
        for (u = w; stamp[u] != time; u = head[parent[u]]) {
            stamp[u] = time;
            distance[u] = d--;
        }
        return steps;
    }

    private void release(int v) {
        for (int a = firstArc[v]; a != NONE; a = nextArc[a]) {
            int w = head[a];
            if (tree[w] != tree[v] || parent[w] == NONE) {
                continue;
            }
            int inward = tree[v] == SOURCE ? a ^ 1 : a;
            if (capacity[inward] != 0) {
                activate(w);
            }
            if (parent[w] >= 0 && head[parent[w]] == v) {
                orphan(w);
            }
        }
        tree[v] = FREE;
        parent[v] = NONE;
    }
}
