package layupmold.geometry.shape;

/** A number for every point of the domain, such as a wall thickness in mm. */
@FunctionalInterface
public interface ScalarField {

    double at(double u, double v);

    /** The same value everywhere. */
    static ScalarField constant(double value) {
        return (u, v) -> value;
    }

    default ScalarField plus(ScalarField other) {
        return (u, v) -> at(u, v) + other.at(u, v);
    }
}
