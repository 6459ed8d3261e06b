package layupmold.geometry.simplify;

/** The plane z = 0 as what a mesh stands for. */
record Plane() implements Target {

    @Override
    public double miss(double x, double y, double z) {
        return z;
    }

    @Override
    public double along(double x, double y, double z) {
        return z;
    }
}
