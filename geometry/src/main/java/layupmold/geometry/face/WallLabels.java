package layupmold.geometry.face;

import layupmold.geometry.mesh.EdgeTopology;

/**
 * Which triangles belong to the wanted wall, by a minimum cut over patches (before the rim is cut to a clean line).
 *
 * @param kept true for triangles of the wanted wall
 * @param evidence by triangle: how surely its patch was told apart from the other wall, −1 (other wall) to 1
 */
record WallLabels(boolean[] kept, float[] evidence) {

    /** A patch seen less than this from the mold's side is taken to be hidden. */
    private static final double HIDDEN = 0.04;
    /** Below this contrast two opposite patches are as good as equally visible: no evidence. */
    private static final double LEAST_CONTRAST = 0.15;
    /** As far as two such patches' normals must part along the pull, in cosines, for the one against it to be the outer. */
    private static final double LEAST_TURN = 0.5;
    /** What separates evidence from a guess. */
    static final double SURE = 0.3;
    /** Segments narrower than this many thicknesses may be rim strips or chamfers. */
    private static final double NARROW = 2.5;
    /** A strip's inward ray that goes deeper than this many thicknesses looks along the wall, not through it. */
    private static final double THROUGH = 3;
    /** Here and there a chamfer's ray happens on a surface that faces it: a strip of wall looks through most of its area. */
    private static final double MOST_OF_STRIP = 0.5;
    /**
     * Tilts undecided strips towards the rim. More than the price of an edge times the turn of a small opening, whose
     * inner edge is the shorter; less than the price of both edges of a strip as wide as the wall, which is detail.
     */
    private static final double RIM_BIAS = -1.5 * Creases.LOW;
    private static final double WIDE_EVIDENCE = 0.4;
    private static final double SCALE = 10_000;
    private static final double MOST = 1e8;

    /**
     * Labels a shell's outer wall. Prices are in mm of full-price edge; a patch's evidence weighs its area over the
     * local thickness, so that a strip about as wide as the wall is thick can stand against the edge around it.
     */
    static WallLabels ofOuterWall(
            EdgeTopology topology, Creases creases, Patches patches, Segments segments, WallSurvey survey) {
        return cut(topology, creases, patches, evidence(creases, patches, segments, survey, false));
    }

    /**
     * Labels the inner wall, which the mold's side does not see. Where it is seen all the same (past the edge of a wall
     * that leans back, at a rib's side) it makes a piece of its own beside the outer wall's: what speaks for the outer
     * wall, but is not connected to it, is undecided.
     *
     * @param outerWall triangles of the outer wall, in one piece
     */
    static WallLabels ofInnerWall(EdgeTopology topology, Creases creases, Patches patches, Segments segments,
            WallSurvey survey, boolean[] outerWall) {
        float[] evidence = evidence(creases, patches, segments, survey, true);
        for (int p = 0; p < evidence.length; p++) {
            if (!outerWall[patches.probe()[p]]) {
                evidence[p] = Math.max(evidence[p], (float) RIM_BIAS);
            }
        }
        return cut(topology, creases, patches, evidence);
    }

    /** The wall's triangles in its largest piece; O(n). */
    boolean[] mainPiece(EdgeTopology topology, double[] areas) {
        return LabelRegions.mainPiece(topology, kept, areas);
    }

    private static float[] evidence(
            Creases creases, Patches patches, Segments segments, WallSurvey survey, boolean inner) {
        float[] thickness = creases.thickness();
        double[] through = segments.share(patches, p -> looksThrough(survey, patches, p, thickness));
        boolean mostTold = isMostTold(survey, patches);
        float[] evidence = new float[patches.count()];
        for (int p = 0; p < evidence.length; p++) {
            int t = patches.probe()[p];
            boolean narrow = segments.widthMm()[t] < NARROW * Math.max(thickness[t], segments.thicknessMm()[t]);
            boolean paired = narrow
                    ? through[segments.facet()[t]] > MOST_OF_STRIP && looksThrough(survey, patches, p, thickness)
                    : survey.isPaired(p);
            evidence[p] = evidence(survey, p, paired, narrow, mostTold, inner);
        }
        return evidence;
    }

    private static boolean looksThrough(WallSurvey survey, Patches patches, int p, float[] thickness) {
        return survey.isPaired(p) && survey.depthMm()[p] < THROUGH * thickness[patches.probe()[p]];
    }

    /** Whether one wall is seen better than the other over most of their area: the pull can be meant. */
    private static boolean isMostTold(WallSurvey survey, Patches patches) {
        double told = 0;
        double paired = 0;
        for (int p = 0; p < patches.count(); p++) {
            if (survey.isPaired(p)) {
                paired += patches.area()[p];
                told += Math.abs(contrast(survey, p)) > LEAST_CONTRAST ? patches.area()[p] : 0;
            }
        }
        return told > paired / 2;
    }

    /** How much better a paired patch is seen than the one behind it, -1 to 1; 0 where both are hidden. */
    private static double contrast(WallSurvey survey, int p) {
        double seen = survey.seen()[p];
        double behind = survey.seen()[survey.opposite()[p]];
        return areBothHidden(survey, p) ? 0 : (seen - behind) / (seen + behind + 0.05);
    }

    private static boolean areBothHidden(WallSurvey survey, int p) {
        return survey.seen()[p] < HIDDEN && survey.seen()[survey.opposite()[p]] < HIDDEN;
    }

    private static float evidence(WallSurvey survey, int p, boolean through, boolean narrow, boolean mostTold,
            boolean inner) {
        double seen = survey.seen()[p];
        double sign = inner ? -1 : 1;
        if (through) {
            double contrast = contrast(survey, p);
            if (Math.abs(contrast) > LEAST_CONTRAST) {
                return (float) (sign * contrast);
            }
            double turned = survey.against()[p] - survey.against()[survey.opposite()[p]];
            if (mostTold && !areBothHidden(survey, p) && Math.abs(turned) > LEAST_TURN) {
                return (float) (sign * Math.signum(turned) * WIDE_EVIDENCE);
            }
        }
        boolean hidden = seen < HIDDEN;
        // A rim looks along the pull as the inner wall does: hiding speaks against the outer wall, not for the inner.
        if (narrow && (inner || !hidden)) {
            return (float) RIM_BIAS;
        }
        if (hidden) {
            return (float) (-0.7 * sign);
        }
        return (float) (sign * (seen > 0.3 ? WIDE_EVIDENCE : RIM_BIAS));
    }

    /** Labels a solid: kept is all but what looks along the pull and can be seen from there. */
    static WallLabels ofSolid(EdgeTopology topology, Creases creases, Patches patches, float[] evidence) {
        return cut(topology, creases, patches, evidence);
    }

    private static WallLabels cut(EdgeTopology topology, Creases creases, Patches patches, float[] evidence) {
        MinimumCut cut = new MinimumCut(patches.count());
        for (int p = 0; p < patches.count(); p++) {
            double price = SCALE * evidence[p] * patches.area()[p] / creases.thickness()[patches.probe()[p]];
            cut.prefer(p, (int) Math.max(-MOST, Math.min(MOST, price)));
        }
        int[] ofTriangle = patches.ofTriangle();
        for (int h = 0; h < topology.halfEdgeCount(); h++) {
            int g = topology.twin(h);
            if (g > h && ofTriangle[h / 3] != ofTriangle[g / 3]) {
                double price = SCALE * creases.edges().length(h) * creases.cutShare(h);
                cut.join(ofTriangle[h / 3], ofTriangle[g / 3], (int) Math.min(MOST, price));
            }
        }
        boolean[] side = cut.solve();
        boolean[] kept = new boolean[ofTriangle.length];
        float[] sure = new float[ofTriangle.length];
        for (int t = 0; t < kept.length; t++) {
            kept[t] = side[ofTriangle[t]];
            sure[t] = evidence[ofTriangle[t]];
        }
        settle(topology, creases.edges(), kept, sure);
        return new WallLabels(kept, sure);
    }

    /** Gives pieces that hold no evidence of their own label to their surroundings. */
    private static void settle(EdgeTopology topology, EdgeAngles edges, boolean[] kept, float[] evidence) {
        LabelRegions regions = LabelRegions.of(topology, kept);
        double[] area = new double[regions.count()];
        double[] sure = new double[regions.count()];
        for (int t = 0; t < kept.length; t++) {
            int r = regions.ofTriangle()[t];
            area[r] += edges.areas()[t];
            if (kept[t] ? evidence[t] > SURE : evidence[t] < -SURE) {
                sure[r] += edges.areas()[t];
            }
        }
        for (int t = 0; t < kept.length; t++) {
            int r = regions.ofTriangle()[t];
            if (sure[r] < 0.05 * area[r]) {
                kept[t] = !kept[t];
            }
        }
    }
}
