package layupmold.geometry.recipe;

/** Which wall of the part is the face that the laminate copies. */
public sealed interface Keep {

    /** The same for a mesh whose coordinates were multiplied. */
    default Keep scaled(double factor) {
        return this instanceof Seed seed ? new Seed(factor * seed.x, factor * seed.y, factor * seed.z) : this;
    }

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
