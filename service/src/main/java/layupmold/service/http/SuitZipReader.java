package layupmold.service.http;

import java.io.EOFException;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.zip.ZipEntry;
import java.util.zip.ZipException;
import java.util.zip.ZipInputStream;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.UploadSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.springframework.stereotype.Component;

/**
 * Unpacks a suit's zip into the store while it arrives. Sizes count as they come out, never as the zip claims them;
 * names are only compared, no file is ever created by one.
 */
@Component
class SuitZipReader {

    static final long MANIFEST_BYTES = 4 << 20;

    private static final List<String> MANIFESTS = List.of("suit.json", "suit.csv", "manifest.json", "manifest.csv");
    private static final int ENTRIES_PER_PART = 4;

    private final BlobStore store;
    private final UploadSettings settings;

    SuitZipReader(BlobStore store, UploadSettings settings) {
        this.store = store;
        this.settings = settings;
    }

    /**
     * @param files by their path below the manifest's folder
     * @param manifest its text, or null if the zip has none
     * @param csv whether its name ends so
     */
    record Unpacked(Map<String, Blob> files, String manifest, boolean csv) {
    }

    /** @param maxPart most bytes of one file */
    Unpacked read(InputStream body, long maxPart) throws IOException {
        Map<String, Blob> files = new LinkedHashMap<>();
        Map<String, String> manifests = new HashMap<>();
        long left = settings.maxSuit().toBytes();
        try {
            ZipInputStream zip = new ZipInputStream(body);
            ZipEntry entry;
            for (int n = 0; (entry = zip.getNextEntry()) != null; n++) {
                if (n >= ENTRIES_PER_PART * settings.maxParts()) {
                    throw invalid("The zip has too many entries.");
                }
                String name = safe(entry.getName());
                if (entry.isDirectory() || isLitter(name)) {
                    continue;
                }
                BoundedBody bytes = new BoundedBody(zip, Math.min(left, maxPart));
                if (MANIFESTS.contains(last(name))) {
                    String text = new String(new BoundedBody(bytes, MANIFEST_BYTES).readAllBytes(), StandardCharsets.UTF_8);
                    manifests.put(name, text);
                    left -= text.length();
                } else {
                    Blob blob = store.put(bytes::transferTo);
                    left -= blob.bytes();
                    if (files.putIfAbsent(name, blob) != null) {
                        throw invalid("The zip has two entries named \"" + name + "\".");
                    }
                }
            }
        } catch (ZipException | IllegalArgumentException | EOFException e) {
            throw invalid("The zip cannot be read: " + e.getMessage());
        }
        if (files.isEmpty() && manifests.isEmpty()) {
            throw invalid("This is no zip, or one without files.");
        }
        return unpacked(files, manifests);
    }

    private static Unpacked unpacked(Map<String, Blob> files, Map<String, String> manifests) {
        String chosen = manifests.keySet().stream().min(Comparator
                .<String>comparingLong(name -> name.chars().filter(c -> c == '/').count())
                .thenComparing(name -> MANIFESTS.indexOf(last(name))).thenComparing(name -> name)).orElse(null);
        String folder = chosen == null ? "" : chosen.substring(0, chosen.length() - last(chosen).length());
        Map<String, Blob> below = new LinkedHashMap<>();
        files.forEach((name, blob) -> {
            if (name.startsWith(folder)) {
                below.put(name.substring(folder.length()), blob);
            }
        });
        return new Unpacked(below, chosen == null ? null : manifests.get(chosen), chosen != null && chosen.endsWith(".csv"));
    }

    private static String safe(String name) {
        String path = name.replace('\\', '/').replaceAll("/+", "/").replaceFirst("^(\\./)+", "");
        boolean climbs = List.of(path.split("/")).contains("..");
        if (climbs || path.startsWith("/") || path.matches("^[A-Za-z]:.*") || path.matches(".*\\p{Cntrl}.*")
                || path.length() > 1000) {
            throw invalid("The zip has an entry whose name leads out of it: \""
                    + path.replaceAll("\\p{Cntrl}", "?").substring(0, Math.min(200, path.length())) + "\".");
        }
        return path;
    }

    /** What file managers add by themselves. */
    private static boolean isLitter(String name) {
        return name.startsWith("__MACOSX/") || last(name).startsWith(".");
    }

    private static String last(String name) {
        return name.substring(name.lastIndexOf('/') + 1);
    }

    private static ProblemException invalid(String detail) {
        return new ProblemException(ProblemKind.SUIT_INVALID, detail);
    }
}
