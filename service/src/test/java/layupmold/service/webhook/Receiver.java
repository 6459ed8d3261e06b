package layupmold.service.webhook;

import com.sun.net.httpserver.HttpExchange;
import com.sun.net.httpserver.HttpServer;
import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.concurrent.CopyOnWriteArrayList;
import java.util.concurrent.Executors;
import java.util.function.Function;

/** Somebody else's server: keeps what it is sent and answers as told. */
final class Receiver implements AutoCloseable {

    /** One request as it came in, and what was answered. */
    record Message(String id, String timestamp, String signature, String type, String body, int answered) {

        String event() {
            return field("type").replace("layupmold.", "");
        }

        String field(String name) {
            return body.replaceAll("(?s).*?\"" + name + "\":\"([^\"]*)\".*", "$1");
        }
    }

    final List<Message> messages = new CopyOnWriteArrayList<>();
    /** Status by body. */
    volatile Function<String, Integer> answer = body -> 204;
    private final HttpServer server;

    Receiver() throws IOException {
        server = HttpServer.create(new InetSocketAddress(InetAddress.getLoopbackAddress(), 0), 0);
        server.createContext("/", this::take);
        server.setExecutor(Executors.newCachedThreadPool());
        server.start();
    }

    String url(String host) {
        return "http://" + host + ":" + server.getAddress().getPort() + "/hook";
    }

    /** What was taken, in order of arrival. */
    List<Message> taken() {
        return messages.stream().filter(message -> message.answered() / 100 == 2).toList();
    }

    private void take(HttpExchange exchange) throws IOException {
        String body = new String(exchange.getRequestBody().readAllBytes(), StandardCharsets.UTF_8);
        int status = answer.apply(body);
        messages.add(new Message(exchange.getRequestHeaders().getFirst("webhook-id"),
                exchange.getRequestHeaders().getFirst("webhook-timestamp"),
                exchange.getRequestHeaders().getFirst("webhook-signature"),
                exchange.getRequestHeaders().getFirst("Content-Type"), body, status));
        if (status == 302) {
            exchange.getResponseHeaders().set("Location", url("127.0.0.1"));
        }
        exchange.sendResponseHeaders(status, -1);
        exchange.close();
    }

    @Override
    public void close() {
        server.stop(0);
    }
}
