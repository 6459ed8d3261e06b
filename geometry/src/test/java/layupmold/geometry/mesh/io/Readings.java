package layupmold.geometry.mesh.io;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertNotNull;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.nio.charset.StandardCharsets;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.finding.Rejection;

/** Readings of files made up in tests. */
final class Readings {

    private Readings() {
    }

    static PartFile read(String text) {
        return read(text.getBytes(StandardCharsets.UTF_8));
    }

    static PartFile read(byte[] bytes) {
        return MeshReader.read(bytes, null, MeshLimits.defaults());
    }

    static Finding refusal(byte[] bytes) {
        return refusal(bytes, MeshLimits.defaults());
    }

    /** The finding that a refused file gets; every one must name its stage and say what to do. */
    static Finding refusal(byte[] bytes, MeshLimits limits) {
        Finding finding = assertThrows(Rejection.class, () -> MeshReader.read(bytes, null, limits)).finding();
        assertEquals("read", finding.stage());
        assertNotNull(finding.advice(), finding.code());
        return finding;
    }
}
