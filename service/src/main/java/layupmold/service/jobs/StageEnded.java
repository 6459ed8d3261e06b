package layupmold.service.jobs;

import java.time.Duration;

/** Published whenever a stage of work on a mold is over. */
public record StageEnded(String stage, Duration took) {
}
