package layupmold.geometry.drape;

import java.util.ArrayList;
import java.util.List;

/**
 * Cuts darts where the cloth would shear past its locking angle, and lays it again.
 *
 * <p>In a pin-jointed net every node follows from the two threads through the start, quarter by quarter. A dart from a
 * point T out to the edge parts what lies beyond T in its quarter: on either side the threads that end at the dart hang
 * on the thread through T of their own side alone, and run on straight from there, as cloth does whose other half was
 * cut away. What the two sides leave between them of the flat cloth is the wedge to cut out.
 *
 * <p>The shear along the two threads through T stays as it was, so T lies where they are well under the locking angle up
 * to the edge: the farther in, the less the rest shears. At most one dart a quarter.
 */
final class Darts {

    private static final int MOST_NODES = 60_000;
    /** Shares of the locking angle that the threads through the tip may reach, tried in turn. */
    private static final double[] EASE = {0.85, 0.65, 0.45};
    /** Darts that leave more than this share of what was amiss are not worth the cut. */
    private static final double WORTH = 0.5;
    /** Few enough to stop looking. */
    private static final double NEAR_NOTHING = 0.02;
    private static final double MOST_IMBALANCE = 0.01;

    private final LaidCloth whole;
    private final DrapeNet net;
    private final DrapeSpec spec;
    private final Bridging bridging;

    private Darts(LaidCloth whole, DrapeSpec spec, Bridging bridging) {
        this.whole = whole;
        this.net = whole.nets().get(0);
        this.spec = spec;
        this.bridging = bridging;
    }

    /** A ply with its darts. */
    record Darted(LaidCloth cloth, List<DrapedPly.Dart> darts) {
    }

    /** A tip, and the way that the dart opens. */
    private record Tip(int i, int j, int wayI, int wayJ, double towardsX, double towardsY) {

        /** Whether the tip's threads part what lies there from the start. */
        boolean isBeyond(int i, int j) {
            return (i - this.i) * wayI > 0 && (j - this.j) * wayJ > 0;
        }

        /** The corner of the cell that begins at the tip. */
        boolean isFirstCorner(int i, int j) {
            return i == this.i + wayI && j == this.j + wayJ;
        }

        /** Last two threads before the dart on the side that the weft through the tip leads to. */
        boolean isWeftSide(int i, int j) {
            int past = (i - this.i) * wayI;
            return (past == 0 || past == -1) && (j - this.j) * wayJ >= 0;
        }

        boolean isWarpSide(int i, int j) {
            int past = (j - this.j) * wayJ;
            return (past == 0 || past == -1) && (i - this.i) * wayI >= 0;
        }
    }

    /**
     * @param whole the ply without darts, of one net
     * @return null where no dart helps
     */
    static Darted cut(LaidCloth whole, DrapeSpec spec, Bridging bridging) {
        return new Darts(whole, spec, bridging).best();
    }

    private Darted best() {
        List<List<int[]>> quarters = LockedPatches.largestByQuarter(net, spec.lockingDeg());
        Darted best = null;
        for (double ease : EASE) {
            Darted darted = lay(quarters, ease * spec.lockingDeg());
            if (darted != null && isSound(darted)
                    && (best == null || darted.cloth().amissMm2() < best.cloth().amissMm2())) {
                best = darted;
            }
            if (best != null && best.cloth().amissMm2() < NEAR_NOTHING * whole.amissMm2()) {
                break;
            }
        }
        return best != null && best.cloth().amissMm2() < WORTH * whole.amissMm2() ? best : null;
    }

    private boolean isSound(Darted darted) {
        return Math.abs(darted.cloth().figures().areaImbalance()) < MOST_IMBALANCE
                && darted.darts().stream().allMatch(d -> d.widthMm() > net.stepMm() / 10);
    }

    private Darted lay(List<List<int[]>> quarters, double mostDeg) {
        ToolSheet sheet = whole.sheet();
        List<Tip> tips = new ArrayList<>();
        List<SlitSheet> slits = new ArrayList<>();
        DrapeNet base = net;
        for (List<int[]> cells : quarters) {
            Tip tip = tip(cells, mostDeg);
            SlitSheet slit = tip == null ? null : slit(sheet, base, tip);
            if (slit != null) {
                sheet = slit.sheet();
                tips.add(tip);
                slits.add(slit);
                base = base.on(slit);
            }
        }
        if (tips.isEmpty()) {
            return null;
        }
        // From here on every node knows its triangle of the sheet with all slits.
        DrapeNet all = base;
        ToolSheet open = sheet;
        List<DrapeNet> nets = new ArrayList<>();
        DrapeNet kept = all.part((i, j) -> tips.stream().noneMatch(t -> t.isBeyond(i, j) && !t.isFirstCorner(i, j)));
        kept.measureCells(new ArcLength(open));
        nets.add(kept);
        for (Tip tip : tips) {
            nets.add(side(open, all.part(tip::isWeftSide), tip));
            nets.add(side(open, all.part(tip::isWarpSide), tip));
        }
        LaidCloth cloth = LaidCloth.measure(open, nets, spec.lockingDeg(), bridging);
        return new Darted(cloth, slits.stream().map(s -> dart(s, cloth.uv())).toList());
    }

    private static DrapeNet side(ToolSheet sheet, DrapeNet given, Tip tip) {
        NetGrowth.goOn(sheet, given, tip::isBeyond, MOST_NODES);
        return given;
    }

    /** On the way from the start to the middle of the locked cells, as far out as its threads allow. */
    private Tip tip(List<int[]> cells, double mostDeg) {
        double midI = 0;
        double midJ = 0;
        for (int[] cell : cells) {
            midI += (cell[0] + 0.5) / cells.size();
            midJ += (cell[1] + 0.5) / cells.size();
        }
        int wayI = midI > 0 ? 1 : -1;
        int wayJ = midJ > 0 ? 1 : -1;
        Tip nearest = null;
        for (double share = 0.95; share > 0.05; share -= 0.05) {
            int i = wayI * (int) Math.max(1, Math.round(share * Math.abs(midI)));
            int j = wayJ * (int) Math.max(1, Math.round(share * Math.abs(midJ)));
            if (!net.isOnSheet(i, j)) {
                continue;
            }
            nearest = new Tip(i, j, wayI, wayJ, towards(cells, i, j, 0), towards(cells, i, j, 1));
            if (mostAlongThreads(nearest) <= mostDeg) {
                return nearest;
            }
        }
        return nearest;
    }

    /** From a node to the middle of the cells, in the mold's plan. */
    private double towards(List<int[]> cells, int i, int j, int axis) {
        double sum = 0;
        for (int[] cell : cells) {
            sum += net.xyz(net.nodeAt(cell[0], cell[1]), axis);
        }
        return sum / cells.size() - net.xyz(net.nodeAt(i, j), axis);
    }

    private double mostAlongThreads(Tip tip) {
        double most = 0;
        for (int n = 0; net.isOnSheet(tip.i, tip.j + n * tip.wayJ); n++) {
            most = Math.max(most, shearBefore(tip, 0, n));
        }
        for (int n = 0; net.isOnSheet(tip.i + n * tip.wayI, tip.j); n++) {
            most = Math.max(most, shearBefore(tip, n, 0));
        }
        return most;
    }

    /** Shear of the cell on the start's side of a thread through the tip. */
    private double shearBefore(Tip tip, int pastI, int pastJ) {
        int i = tip.i + pastI * tip.wayI - (tip.wayI > 0 ? 1 : 0);
        int j = tip.j + pastJ * tip.wayJ - (tip.wayJ > 0 ? 1 : 0);
        double shear = net.cellShearDeg(i, j);
        return Double.isNaN(shear) ? 0 : Math.abs(shear);
    }

    /** @param laid knows the triangles of {@code sheet} */
    private static SlitSheet slit(ToolSheet sheet, DrapeNet laid, Tip tip) {
        int node = laid.nodeAt(tip.i, tip.j);
        double[] at = new double[3];
        laid.copy(node, at);
        int triangle = laid.triangle(node);
        awayFromSides(sheet, triangle, at);
        Seam seam = Seam.toEdge(sheet, triangle, at, tip.towardsX, tip.towardsY, 4 * Math.sqrt(sheet.areaMm2()));
        return seam == null || endsInAnother(sheet, seam) ? null : SlitSheet.cut(sheet, seam);
    }

    private static boolean endsInAnother(ToolSheet sheet, Seam seam) {
        int last = seam.exits()[seam.exits().length - 1];
        return sheet.isOnSlit(sheet.topology().from(last)) && sheet.isOnSlit(sheet.topology().to(last));
    }

    /** A tip on a side of its triangle would cut slivers. */
    private static void awayFromSides(ToolSheet sheet, int triangle, double[] at) {
        var middle = sheet.mesh().centroid(triangle);
        for (int k = 0; k < 3; k++) {
            at[k] += 0.15 * (middle.get(k) - at[k]);
        }
    }

    private static DrapedPly.Dart dart(SlitSheet slit, double[] uv) {
        return new DrapedPly.Dart(flat(slit.left(), uv), flat(slit.right(), uv));
    }

    /** Vertices that cloth lies on. */
    private static double[] flat(int[] seam, double[] uv) {
        List<Double> line = new ArrayList<>();
        for (int v : seam) {
            if (!Double.isNaN(uv[2 * v])) {
                line.add(uv[2 * v]);
                line.add(uv[2 * v + 1]);
            }
        }
        return line.stream().mapToDouble(d -> d).toArray();
    }
}
