package layupmold.geometry.opening;

/** How a cap was shaped, from the most wanted to the plainest. */
public enum CapShape {
    /** Flat: the loop lies in a plane that the face around it meets flush or steeply. */
    PLANAR,
    /** Curved, and tangent to the face around it. */
    TANGENT,
    /** Curved like a soap film; meets the face at an angle. */
    MEMBRANE,
    /** Minimum-area triangles as they are. */
    FACETED
}
