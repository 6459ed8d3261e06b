package layupmold.geometry.recipe;

/** Range checks shared by the recipe's records. */
final class Limits {

    private Limits() {
    }

    static void inRange(String name, double value, double least, double most) {
        if (!(value >= least && value <= most)) {
            throw new IllegalArgumentException(name + " must lie between " + least + " and " + most + ", not " + value);
        }
    }
}
