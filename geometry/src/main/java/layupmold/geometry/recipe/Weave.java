package layupmold.geometry.recipe;

/** How a cloth's yarns cross; it decides how far the cloth shears and how tight a corner it follows. */
public enum Weave {
    PLAIN, TWILL_2X2, SATIN, UNIDIRECTIONAL, CHOPPED_MAT
}
