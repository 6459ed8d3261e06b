package layupmold.geometry.recipe;

/** Which wall of the part is the face that the laminate copies. */
public sealed interface Keep {

    /** The outer wall: what one sees of the part from outside. */
    record Outer() implements Keep {
    }

    /** The inner wall. */
    record Inner() implements Keep {
    }

    /** The wall nearest to a point given in the posted mesh's own coordinates and unit. */
    record Seed(double x, double y, double z) implements Keep {
        public Seed {
            if (!Double.isFinite(x + y + z)) {
                throw new IllegalArgumentException("a seed point needs finite coordinates");
            }
        }
    }
}
