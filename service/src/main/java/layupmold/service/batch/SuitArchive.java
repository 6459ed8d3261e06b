package layupmold.service.batch;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import layupmold.service.store.Blob;

/**
 * A posted suit, its files already in the store.
 *
 * @param files by their path in the zip, without the folder that the manifest lies in
 * @param manifest the manifest's text
 * @param csv whether that is CSV; else JSON
 * @param defaultsJson recipe under everything that the manifest says, or null
 */
public record SuitArchive(Map<String, Blob> files, String manifest, boolean csv, String defaultsJson) {

    /** What makes another suit another one. */
    List<String> fingerprint() {
        List<String> words = new ArrayList<>(List.of(manifest, String.valueOf(defaultsJson)));
        new TreeMap<>(files).forEach((name, blob) -> words.add(name + " " + blob.key()));
        return words;
    }
}
