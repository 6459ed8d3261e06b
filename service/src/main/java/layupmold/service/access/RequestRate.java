package layupmold.service.access;

import com.github.benmanes.caffeine.cache.Cache;
import com.github.benmanes.caffeine.cache.Caffeine;
import io.github.bucket4j.Bucket;
import io.github.bucket4j.ConsumptionProbe;
import jakarta.servlet.FilterChain;
import jakarta.servlet.ServletException;
import jakarta.servlet.http.HttpServletRequest;
import jakarta.servlet.http.HttpServletResponse;
import java.io.IOException;
import java.time.Duration;
import java.util.concurrent.TimeUnit;
import layupmold.service.problem.ProblemAnswer;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.springframework.http.HttpHeaders;
import org.springframework.security.core.Authentication;
import org.springframework.security.core.context.SecurityContextHolder;
import org.springframework.web.filter.OncePerRequestFilter;

/** Turns away callers who send more requests a minute than they may. */
final class RequestRate extends OncePerRequestFilter {

    /** A caller unseen for longer has a full bucket anyway. */
    private static final Duration FULL_AGAIN = Duration.ofMinutes(2);
    private static final int MOST_CALLERS = 100_000;

    private final Cache<String, Bucket> buckets =
            Caffeine.newBuilder().expireAfterAccess(FULL_AGAIN).maximumSize(MOST_CALLERS).build();

    @Override
    protected void doFilterInternal(HttpServletRequest request, HttpServletResponse response, FilterChain chain)
            throws ServletException, IOException {
        Authentication authentication = SecurityContextHolder.getContext().getAuthentication();
        if (authentication instanceof CallerAuthentication known) {
            ConsumptionProbe probe = bucket(known.getPrincipal()).tryConsumeAndReturnRemaining(1);
            if (!probe.isConsumed()) {
                long seconds = TimeUnit.NANOSECONDS.toSeconds(probe.getNanosToWaitForRefill()) + 1;
                response.setHeader(HttpHeaders.RETRY_AFTER, Long.toString(seconds));
                ProblemAnswer.write(response, new ProblemException(ProblemKind.TOO_MANY_REQUESTS,
                        "At most " + known.getPrincipal().requestsPerMinute() + " requests a minute are taken."));
                return;
            }
        }
        chain.doFilter(request, response);
    }

    private Bucket bucket(Caller caller) {
        return buckets.get(caller.id() + " " + caller.requestsPerMinute(), id -> Bucket.builder()
                .addLimit(limit -> limit.capacity(caller.requestsPerMinute())
                        .refillGreedy(caller.requestsPerMinute(), Duration.ofMinutes(1)))
                .build());
    }
}
