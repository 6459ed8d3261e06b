package layupmold.service.jobs;

import java.util.concurrent.CancellationException;

/** Stops work on a mold because the node stops; the mold goes back into the queue. */
final class HandBack extends CancellationException {
}
