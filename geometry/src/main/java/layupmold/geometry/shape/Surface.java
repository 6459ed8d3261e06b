package layupmold.geometry.shape;

import org.joml.Vector3d;

/** A smooth parametric surface, mm. Parameters run in millimetres too, so that steps in the domain keep their meaning. */
@FunctionalInterface
public interface Surface {

    /** Step of the difference quotients of {@link #normal}, mm. */
    double NORMAL_STEP_MM = 1e-4;

    /** Point at parameters {@code (u, v)}. */
    Vector3d at(double u, double v);

    /** Unit normal, along ∂/∂u × ∂/∂v, by central differences: about 1e-8 off on surfaces with radii of centimetres. */
    default Vector3d normal(double u, double v) {
        Vector3d alongU = at(u + NORMAL_STEP_MM, v).sub(at(u - NORMAL_STEP_MM, v));
        Vector3d alongV = at(u, v + NORMAL_STEP_MM).sub(at(u, v - NORMAL_STEP_MM));
        return alongU.cross(alongV).normalize();
    }
}
