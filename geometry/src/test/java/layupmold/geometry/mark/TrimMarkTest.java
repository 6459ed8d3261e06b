package layupmold.geometry.mark;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import net.jqwik.api.ForAll;
import net.jqwik.api.Property;
import net.jqwik.api.constraints.DoubleRange;
import org.joml.Vector2d;
import org.junit.jupiter.api.Test;

/** The mark's section is offset line by line, by where parallels cross, without the formula that made it. */
class TrimMarkTest {

    /** As far as a mark may begin before its line, and beyond it if it would begin before it by more. */
    private static final double BEFORE_MM = 0.3;
    private static final double BEYOND_MM = 0.15;

    @Property
    void hasTheDepthThatIsAskedOnceOffset(
            @ForAll @DoubleRange(min = 0.05, max = 2) double depthMm,
            @ForAll @DoubleRange(min = -5, max = 5) double offsetMm) {
        Vector2d[] tool = offset(TrimMark.of(depthMm, offsetMm), offsetMm);
        assertEquals(depthMm, -tool[1].y, 1e-9);
        assertTrue(tool[2].x - tool[0].x >= Math.max(0.8, 3 * depthMm) - 1e-9, "narrower than a mark is");
    }

    @Property
    void beginsAtTheLineOrALittleBeyond(
            @ForAll @DoubleRange(min = 0.05, max = 2) double depthMm,
            @ForAll @DoubleRange(min = -5, max = 5) double offsetMm) {
        double begin = offset(TrimMark.of(depthMm, offsetMm), offsetMm)[0].x;
        assertTrue(begin <= 0.5, "begins " + begin + " mm beyond the line");
        assertTrue(begin >= -BEFORE_MM, "takes " + -begin + " mm off the face");
        if (offsetMm > 3 && depthMm > 0.3) {
            assertEquals(BEYOND_MM, begin, 1e-9);
        }
    }

    /** Narrowed in a hollow, it keeps its slope: a mark that grows ends up deeper than its share, one that shrinks less. */
    @Property
    void isShallowerWhereItIsNarrowed(
            @ForAll @DoubleRange(min = 0.05, max = 2) double depthMm,
            @ForAll @DoubleRange(min = -5, max = 5) double offsetMm,
            @ForAll @DoubleRange(min = 0.1, max = 1) double share) {
        TrimMark mark = TrimMark.of(depthMm, offsetMm);
        Vector2d[] whole = offset(mark, offsetMm);
        Vector2d[] tool = offset(
                new TrimMark(share * mark.leadMm(), share * mark.widthMm(), share * mark.depthMm()), offsetMm);
        assertEquals(whole[1].y * (tool[1].x - tool[0].x), tool[1].y * (whole[1].x - whole[0].x), 1e-9);
        assertTrue(-tool[1].y <= depthMm + 1e-9, "deeper than asked");
        assertEquals(0, Math.max(0, Math.signum(offsetMm) * (share * depthMm + tool[1].y)), 1e-9);
    }

    @Test
    void whereNothingIsOffsetItIsTheMarkItself() {
        TrimMark mark = TrimMark.of(0.3, 0);
        assertEquals(0, mark.leadMm(), 0);
        assertEquals(0.9, mark.widthMm(), 1e-12);
        assertEquals(0.3, mark.depthMm(), 1e-12);
        assertEquals(TrimMark.NONE, TrimMark.of(0, 1));
    }

    /** Corners of the V, on the ground, at its depth and on the ground, once its lines have moved down by {@code q}. */
    private static Vector2d[] offset(TrimMark mark, double q) {
        Vector2d[] section = {new Vector2d(-100, 0), new Vector2d(mark.leadMm(), 0),
            new Vector2d(mark.valleyMm(), -mark.depthMm()), new Vector2d(mark.endMm(), 0), new Vector2d(100, 0)};
        Vector2d[] corners = new Vector2d[3];
        for (int i = 0; i < 3; i++) {
            corners[i] = crossing(section[i], section[i + 1], section[i + 2], q).add(0, q);
        }
        return corners;
    }

    /** Where the line through a and b and that through b and c cross once both have moved to the right by {@code q}. */
    private static Vector2d crossing(Vector2d a, Vector2d b, Vector2d c, double q) {
        Vector2d u = new Vector2d(b).sub(a).normalize();
        Vector2d v = new Vector2d(c).sub(b).normalize();
        Vector2d p = new Vector2d(b).add(new Vector2d(u.y, -u.x).mul(q));
        Vector2d r = new Vector2d(b).add(new Vector2d(v.y, -v.x).mul(q)).sub(p);
        double along = (r.x * v.y - r.y * v.x) / (u.x * v.y - u.y * v.x);
        return p.fma(along, u, new Vector2d());
    }
}
