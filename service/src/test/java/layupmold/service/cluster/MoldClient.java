package layupmold.service.cluster;

import java.io.IOException;
import java.net.URLEncoder;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.charset.StandardCharsets;
import java.time.Duration;
import layupmold.api.ContractJson;
import layupmold.api.mold.MoldResource;
import layupmold.service.Parts;

/** Posts parts to nodes as a pipeline would. */
final class MoldClient {

    private MoldClient() {
    }

    /**
     * @return the mold's identifier once the node has accepted the part
     * @throws IOException if it did not say so
     */
    static String post(NodeProcess node, String title) throws IOException {
        String recipe = URLEncoder.encode("{\"title\":\"" + title + "\"}", StandardCharsets.UTF_8);
        HttpResponse<String> answer = node.send(HttpRequest.newBuilder(node.uri("/v1/molds?recipe=" + recipe))
                .timeout(Duration.ofSeconds(20))
                .header("Content-Type", "model/stl").header("Idempotency-Key", title.replace(' ', '-'))
                .POST(HttpRequest.BodyPublishers.ofByteArray(Parts.tetrahedron(20))));
        if (answer.statusCode() != 202 && answer.statusCode() != 200) {
            throw new IOException("status " + answer.statusCode() + ": " + answer.body());
        }
        return read(answer).id();
    }

    static MoldResource get(NodeProcess node, String id, int waitSeconds) throws IOException {
        HttpResponse<String> answer = node.send(HttpRequest.newBuilder(node.uri("/v1/molds/" + id))
                .timeout(Duration.ofSeconds(waitSeconds + 20L)).header("Prefer", "wait=" + waitSeconds));
        if (answer.statusCode() != 200) {
            throw new IOException("status " + answer.statusCode() + ": " + answer.body());
        }
        return read(answer);
    }

    private static MoldResource read(HttpResponse<String> answer) throws IOException {
        return ContractJson.read(answer.body().getBytes(StandardCharsets.UTF_8), MoldResource.class);
    }
}
