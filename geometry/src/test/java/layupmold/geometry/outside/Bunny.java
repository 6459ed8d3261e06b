package layupmold.geometry.outside;

import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import layupmold.geometry.mesh.TriangleMesh;

/** Turns the bunny package's script into a mesh. */
public final class Bunny {

    private static final Pattern TRIPLE = Pattern.compile("\\[([^\\[\\],]+),([^\\[\\],]+),([^\\[\\],]+)\\]");

    private Bunny() {
    }

    /** The bunny in the package's own numbers, about 10 high; see {@link Outsiders#bunnySource}. */
    public static TriangleMesh mesh() {
        String source = Outsiders.bunnySource();
        int cells = source.indexOf("cells=");
        double[] xyz = numbers(source.substring(0, cells));
        double[] indices = numbers(source.substring(cells));
        int[] triangles = new int[indices.length];
        for (int i = 0; i < triangles.length; i++) {
            triangles[i] = (int) indices[i];
        }
        return new TriangleMesh(xyz, triangles);
    }

    private static double[] numbers(String text) {
        List<Double> numbers = new ArrayList<>();
        Matcher matcher = TRIPLE.matcher(text);
        while (matcher.find()) {
            for (int i = 1; i <= 3; i++) {
                numbers.add(Double.parseDouble(matcher.group(i)));
            }
        }
        return numbers.stream().mapToDouble(n -> n).toArray();
    }
}
