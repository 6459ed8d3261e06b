package layupmold.service.http;

import java.time.Duration;
import java.util.Collections;
import java.util.Enumeration;
import java.util.Locale;
import java.util.Optional;
import org.springframework.http.ResponseEntity;

/**
 * What a Prefer header asks for (RFC 7240). Unknown preferences and ones that make no sense are ignored, as the standard
 * has it.
 *
 * @param waitSeconds how long to wait, if it says
 * @param respondAsync whether the answer should come at once
 */
record Preferences(Optional<Integer> waitSeconds, boolean respondAsync) {

    static Preferences parse(Enumeration<String> headers) {
        Optional<Integer> wait = Optional.empty();
        boolean async = false;
        for (String header : Collections.list(headers)) {
            for (String preference : header.split(",")) {
                String[] nameAndValue = preference.split(";", 2)[0].split("=", 2);
                String name = nameAndValue[0].strip().toLowerCase(Locale.ROOT);
                if (name.equals("respond-async")) {
                    async = true;
                } else if (name.equals("wait") && wait.isEmpty() && nameAndValue.length == 2) {
                    wait = seconds(nameAndValue[1].strip());
                }
            }
        }
        return new Preferences(wait, async);
    }

    private static Optional<Integer> seconds(String value) {
        String digits = value.startsWith("\"") && value.endsWith("\"") && value.length() > 1
                ? value.substring(1, value.length() - 1) : value;
        return digits.matches("[0-9]{1,9}") ? Optional.of(Integer.valueOf(digits)) : Optional.empty();
    }

    /** How long to wait when {@code usual} applies to a request that does not say. */
    Duration wait(Duration usual, Duration most) {
        Duration asked = waitSeconds.map(Duration::ofSeconds).orElse(respondAsync ? Duration.ZERO : usual);
        return asked.compareTo(most) > 0 ? most : asked;
    }

    /** The answer, naming the preference that was honoured. */
    <T> ResponseEntity<T> applied(ResponseEntity<T> answer) {
        String honoured = waitSeconds.map(seconds -> "wait=" + seconds).orElse(respondAsync ? "respond-async" : null);
        return honoured == null ? answer : ResponseEntity.status(answer.getStatusCode()).headers(answer.getHeaders())
                .header("Preference-Applied", honoured).body(answer.getBody());
    }
}
