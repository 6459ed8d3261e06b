package layupmold.geometry.testparts;

import java.util.SplittableRandom;
import layupmold.geometry.shape.Rim;

/**
 * What a random shell is to be like.
 *
 * @param seed decides all that is left open
 * @param base form of the outer wall
 * @param rim joint of the two walls
 * @param openings wanted number; fewer where there is no room
 * @param ribs ribs on the inner wall
 * @param bosses round bosses on the inner wall
 * @param leastThicknessMm thinnest wall
 * @param greatestThicknessMm thickest wall; less where the form's radius does not allow it
 * @param spacingMm finest edge length; edges grow to four times that away from the loops
 * @param slivers adds points a few hundredths of a millimetre from others
 * @param noiseMm greatest displacement of wall vertices along their normals, both ways; less on very thin
 *     triangles, which it would fold
 * @param placement where and how the part lies
 * @param insideOut all triangles face inward
 * @param specks small further components beside the part
 */
public record ShellSpec(
        long seed,
        BaseShape base,
        RimKind rim,
        int openings,
        int ribs,
        int bosses,
        double leastThicknessMm,
        double greatestThicknessMm,
        double spacingMm,
        boolean slivers,
        double noiseMm,
        Placement placement,
        boolean insideOut,
        int specks) {

    /** The three kinds of rim that parts have, and a round of as few segments as makers' exports have. */
    public enum RimKind {
        SHARP, FULL_ROUND, CHAMFERED, COARSE_ROUND;

        private static final int CHOSEN_AT_RANDOM = 3;

        Rim section() {
            return switch (this) {
                case SHARP -> Rim.sharp();
                case FULL_ROUND -> Rim.fullRound(8);
                case COARSE_ROUND -> Rim.fullRound(6);
                case CHAMFERED -> Rim.chamfered(0.25);
            };
        }
    }

    /** Position in space. */
    public enum Placement {
        /** Mouth towards −z, near the origin. */
        UPRIGHT,
        /** Turned at random, near the origin. */
        TURNED,
        /** Turned at random, up to 20 m away. */
        FAR
    }

    /** A clean part of the given form: even 3 mm wall, full-round rim, no openings, upright. */
    public static ShellSpec plain(BaseShape base, long seed) {
        return new ShellSpec(seed, base, RimKind.FULL_ROUND, 0, 0, 0, 3, 3, 3, false, 0, Placement.UPRIGHT, false, 0);
    }

    /** Everything at random. One part in eight is inside out, one in six noisy, one in six has specks. */
    public static ShellSpec random(long seed) {
        SplittableRandom r = new SplittableRandom(seed * 0x9e3779b97f4a7c15L + 1);
        BaseShape base = BaseShape.values()[r.nextInt(BaseShape.values().length)];
        RimKind rim = RimKind.values()[r.nextInt(RimKind.CHOSEN_AT_RANDOM)];
        double least = r.nextDouble(1, 5);
        double greatest = Math.min(8, least * r.nextDouble(1, 3));
        return new ShellSpec(seed, base, rim, r.nextInt(4), r.nextInt(4), r.nextInt(4), least, greatest,
                r.nextDouble(2, 4), r.nextBoolean(), r.nextInt(6) == 0 ? 0.02 : 0,
                Placement.values()[r.nextInt(3)], r.nextInt(8) == 0, r.nextInt(6) == 0 ? r.nextInt(1, 4) : 0);
    }

    public ShellSpec withOpenings(int count) {
        return new ShellSpec(seed, base, rim, count, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, noiseMm, placement, insideOut, specks);
    }

    public ShellSpec withRim(RimKind kind) {
        return new ShellSpec(seed, base, kind, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, noiseMm, placement, insideOut, specks);
    }

    public ShellSpec withRibsAndBosses(int ribCount, int bossCount) {
        return new ShellSpec(seed, base, rim, openings, ribCount, bossCount, leastThicknessMm, greatestThicknessMm,
                spacingMm, slivers, noiseMm, placement, insideOut, specks);
    }

    public ShellSpec withThickness(double leastMm, double greatestMm) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastMm, greatestMm, spacingMm, slivers, noiseMm,
                placement, insideOut, specks);
    }

    public ShellSpec withSpacing(double mm) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, mm,
                slivers, noiseMm, placement, insideOut, specks);
    }

    public ShellSpec withSlivers(boolean wanted) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                wanted, noiseMm, placement, insideOut, specks);
    }

    public ShellSpec withNoise(double mm) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, mm, placement, insideOut, specks);
    }

    public ShellSpec withPlacement(Placement where) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, noiseMm, where, insideOut, specks);
    }

    public ShellSpec withInsideOut(boolean wanted) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, noiseMm, placement, wanted, specks);
    }

    public ShellSpec withSpecks(int count) {
        return new ShellSpec(seed, base, rim, openings, ribs, bosses, leastThicknessMm, greatestThicknessMm, spacingMm,
                slivers, noiseMm, placement, insideOut, count);
    }
}
