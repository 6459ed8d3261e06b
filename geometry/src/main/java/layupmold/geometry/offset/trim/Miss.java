package layupmold.geometry.offset.trim;

import java.util.function.Supplier;

/** How far a point misses the offset surface: negative for too near. Used by one thread. */
@FunctionalInterface
public interface Miss {

    double at(double x, double y, double z);

    /** Makes one for each thread. */
    interface Source extends Supplier<Miss> {
    }
}
