package layupmold.service.packaging;

import java.io.IOException;
import java.net.JarURLConnection;
import java.net.URI;
import java.net.URISyntaxException;
import java.net.URL;
import java.net.URLConnection;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Collections;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.TreeSet;
import java.util.stream.Stream;

/** Lists {@code META-INF/micronaut/<service>/<class>} in every folder, jar and jar within a jar of a class path. */
final class ServiceFolders {

    private static final String ROOT = "META-INF/micronaut/";

    private ServiceFolders() {
    }

    /** Class names by service, both in alphabetical order. */
    static Map<String, Set<String>> list(ClassLoader loader) throws IOException {
        Map<String, Set<String>> services = new TreeMap<>();
        for (URL root : Collections.list(loader.getResources(ROOT))) {
            URLConnection connection = root.openConnection();
            if (connection instanceof JarURLConnection jar) {
                // The jar is the class loader's own, so it stays open.
                jar.getJarFile().stream().filter(entry -> !entry.isDirectory() && entry.getName().startsWith(ROOT))
                        .forEach(entry -> add(services, entry.getName().substring(ROOT.length())));
            } else {
                addFolder(services, folder(root));
            }
        }
        return services;
    }

    private static void addFolder(Map<String, Set<String>> services, Path folder) throws IOException {
        try (Stream<Path> files = Files.walk(folder, 2)) {
            files.filter(Files::isRegularFile).forEach(file -> add(services,
                    file.getParent().getFileName() + "/" + file.getFileName()));
        }
    }

    private static void add(Map<String, Set<String>> services, String serviceAndName) {
        int slash = serviceAndName.indexOf('/');
        if (slash > 0) {
            services.computeIfAbsent(serviceAndName.substring(0, slash), service -> new TreeSet<>())
                    .add(serviceAndName.substring(slash + 1));
        }
    }

    private static Path folder(URL root) throws IOException {
        try {
            return Path.of(new URI(root.toString()));
        } catch (URISyntaxException e) {
            throw new IOException("cannot list " + root, e);
        }
    }
}
