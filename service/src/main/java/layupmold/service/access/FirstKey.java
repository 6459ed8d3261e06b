package layupmold.service.access;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.PosixFilePermissions;
import java.time.Clock;
import java.util.List;
import layupmold.api.access.AccessScope;
import layupmold.api.access.NewKey;
import layupmold.service.settings.AccessSettings;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import org.springframework.boot.ApplicationArguments;
import org.springframework.boot.ApplicationRunner;
import org.springframework.stereotype.Component;

/** Makes a key to make others with, when keys are asked for and none can do that; only its file ever holds it. */
@Component
class FirstKey implements ApplicationRunner {

    private static final Logger LOG = LoggerFactory.getLogger(FirstKey.class);

    private final ApiKeys keys;
    private final AccessSettings settings;
    private final Clock clock;

    FirstKey(ApiKeys keys, AccessSettings settings, Clock clock) {
        this.keys = keys;
        this.settings = settings;
        this.clock = clock;
    }

    @Override
    public void run(ApplicationArguments arguments) throws IOException {
        if (!settings.apiKeys() || keys.all().stream()
                .anyMatch(key -> key.scopes().contains(AccessScope.ADMIN) && key.isValidAt(clock.instant()))) {
            return;
        }
        Path file = settings.firstKeyFile().toAbsolutePath();
        Files.createDirectories(file.getParent());
        try {
            create(file);
        } catch (FileAlreadyExistsException e) {
            LOG.warn("no key has the scope admin, and {} is in the way of a new one; remove it and start again", file);
            return;
        }
        Files.writeString(file, keys.make(new NewKey("admin", "first key", List.of(AccessScope.values()), null, null, null))
                .token() + "\n", StandardOpenOption.WRITE);
        LOG.info("the first key, with all scopes, is in {}", file);
    }

    /** Readable by nobody else from the start. */
    private static void create(Path file) throws IOException {
        boolean posix = file.getFileSystem().supportedFileAttributeViews().contains("posix");
        FileAttribute<?>[] ownersOnly = posix
                ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(PosixFilePermissions.fromString("rw-------"))}
                : new FileAttribute<?>[0];
        Files.createFile(file, ownersOnly);
    }
}
