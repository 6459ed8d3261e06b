package layupmold.samples.heron;

import java.io.BufferedOutputStream;
import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import layupmold.geometry.mesh.io.StlWriter;

/** Writes the costume's meshes and its manifests into a folder: {@code WriteHeron samples/heron}. */
public final class WriteHeron {

    private WriteHeron() {
    }

    public static void main(String[] arguments) throws IOException {
        Path folder = Path.of(arguments.length > 0 ? arguments[0] : "samples/heron");
        Files.createDirectories(folder);
        for (HeronPart part : HeronPart.values()) {
            Path file = folder.resolve(part.slug() + ".stl");
            try (OutputStream out = new BufferedOutputStream(Files.newOutputStream(file))) {
                writeStl(part, out);
            }
            System.out.println(file);
        }
        Files.write(folder.resolve("suit.json"), HeronManifest.json());
        Files.write(folder.resolve("suit.csv"), HeronManifest.csv());
    }

    static void writeStl(HeronPart part, OutputStream out) throws IOException {
        StlWriter.write(part.mesh(), "heron " + part.slug() + ", mm", out);
    }
}
