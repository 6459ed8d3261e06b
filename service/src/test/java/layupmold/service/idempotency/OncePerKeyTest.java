package layupmold.service.idempotency;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.atomic.AtomicInteger;
import layupmold.service.CubeMaker;
import layupmold.service.RunningService;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.junit.jupiter.api.AfterAll;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.Test;

class OncePerKeyTest {

    private static RunningService service;

    @BeforeAll
    static void start() {
        service = RunningService.start(new CubeMaker());
    }

    @AfterAll
    static void stop() {
        service.close();
    }

    private final AtomicInteger worked = new AtomicInteger();

    private String run(KeyedRequest request, String payload) {
        return service.bean(OncePerKey.class).run(request, List.of(payload),
                () -> "result " + worked.incrementAndGet(), result -> result, Optional::of);
    }

    @Test
    void repeatsGetTheFirstResult() {
        KeyedRequest request = new KeyedRequest("anyone", "POST a", "k");
        assertEquals("result 1", run(request, "x"));
        assertEquals("result 1", run(request, "x"));
        assertEquals(1, worked.get());
    }

    @Test
    void ownersAndOperationsDoNotShareKeys() {
        assertEquals("result 1", run(new KeyedRequest("ann", "POST b", "k"), "x"));
        assertEquals("result 2", run(new KeyedRequest("ben", "POST b", "k"), "x"));
        assertEquals("result 3", run(new KeyedRequest("ann", "POST c", "k"), "x"));
    }

    @Test
    void withoutAKeyEveryRequestWorks() {
        KeyedRequest request = new KeyedRequest("anyone", "POST d", null);
        assertEquals("result 1", run(request, "x"));
        assertEquals("result 2", run(request, "x"));
    }

    @Test
    void anotherPayloadIsRefused() {
        KeyedRequest request = new KeyedRequest("anyone", "POST e", "k");
        run(request, "x");
        assertEquals(ProblemKind.KEY_REUSED,
                assertThrows(ProblemException.class, () -> run(request, "y")).kind());
    }

    @Test
    void workThatFailedIsNotRemembered() {
        KeyedRequest request = new KeyedRequest("anyone", "POST f", "k");
        assertThrows(ProblemException.class, () -> service.bean(OncePerKey.class).run(request, List.of("x"),
                () -> {
                    throw new ProblemException(ProblemKind.OVERLOADED, "Full.");
                }, String::valueOf, Optional::of));
        assertEquals("result 1", run(request, "y"));
    }
}
