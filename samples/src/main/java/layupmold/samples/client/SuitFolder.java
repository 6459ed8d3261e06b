package layupmold.samples.client;

import java.io.IOException;
import java.io.OutputStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashSet;
import java.util.Set;
import java.util.zip.ZipEntry;
import java.util.zip.ZipOutputStream;
import layupmold.api.ContractJson;
import layupmold.api.batch.SuitManifest;
import layupmold.api.batch.SuitPart;

/** A folder with a suit's meshes and its {@code suit.json}, packed for posting. */
public final class SuitFolder {

    private SuitFolder() {
    }

    /** Zips the manifest and the files it names, nothing else. */
    public static void zip(Path folder, Path zip) throws IOException {
        byte[] json = Files.readAllBytes(folder.resolve("suit.json"));
        SuitManifest manifest = ContractJson.read(json, SuitManifest.class);
        Set<String> files = new LinkedHashSet<>();
        for (SuitPart part : manifest.parts()) {
            if (part.file() != null) {
                files.add(part.file());
            }
        }
        try (OutputStream out = Files.newOutputStream(zip); ZipOutputStream packed = new ZipOutputStream(out)) {
            packed.putNextEntry(new ZipEntry("suit.json"));
            packed.write(json);
            for (String file : files) {
                packed.putNextEntry(new ZipEntry(file));
                Files.copy(folder.resolve(file), packed);
            }
        }
    }
}
