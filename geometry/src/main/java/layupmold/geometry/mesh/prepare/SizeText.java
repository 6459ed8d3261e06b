package layupmold.geometry.mesh.prepare;

import java.math.BigDecimal;
import java.math.MathContext;
import org.joml.Vector3d;

/** Sizes as a maker reads them: four digits, no exponent. */
final class SizeText {

    private SizeText() {
    }

    static String of(double mm) {
        return new BigDecimal(mm, new MathContext(4)).stripTrailingZeros().toPlainString();
    }

    static String of(Vector3d size) {
        return of(size.x) + " x " + of(size.y) + " x " + of(size.z);
    }
}
