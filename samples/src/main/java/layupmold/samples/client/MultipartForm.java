package layupmold.samples.client;

import java.io.FileNotFoundException;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;

/** A {@code multipart/form-data} body (RFC 7578) whose files stream from disk. */
final class MultipartForm {

    private final String boundary = UUID.randomUUID().toString();
    private final List<BodyPublisher> parts = new ArrayList<>();

    MultipartForm file(String name, Path file) throws FileNotFoundException {
        // RFC 7578, section 4.2: quotes and line breaks in names are percent-encoded.
        String shown = file.getFileName().toString()
                .replace("\"", "%22").replace("\r", "%0D").replace("\n", "%0A");
        head("name=\"" + name + "\"; filename=\"" + shown + "\"", "application/octet-stream");
        parts.add(BodyPublishers.ofFile(file));
        return this;
    }

    MultipartForm json(String name, byte[] json) {
        head("name=\"" + name + "\"", "application/json");
        parts.add(BodyPublishers.ofByteArray(json));
        return this;
    }

    private void head(String disposition, String mediaType) {
        String lead = parts.isEmpty() ? "" : "\r\n";
        text(lead + "--" + boundary + "\r\nContent-Disposition: form-data; " + disposition + "\r\nContent-Type: "
                + mediaType + "\r\n\r\n");
    }

    private void text(String text) {
        parts.add(BodyPublishers.ofByteArray(text.getBytes(StandardCharsets.UTF_8)));
    }

    String mediaType() {
        return "multipart/form-data; boundary=" + boundary;
    }

    BodyPublisher body() {
        text("\r\n--" + boundary + "--\r\n");
        return BodyPublishers.concat(parts.toArray(BodyPublisher[]::new));
    }
}
