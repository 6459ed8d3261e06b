package layupmold.geometry.bvh;

/** Answer of a ray query, reused between queries by one thread. */
public final class RayHit {

    /** Triangle hit first, or -1. */
    public int triangle;
    /** Ray parameter of the hit: distance if the direction is a unit vector. */
    public double t;
}
