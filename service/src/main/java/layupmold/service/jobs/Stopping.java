package layupmold.service.jobs;

import org.springframework.stereotype.Component;

/** Tells running jobs that their node is stopping, so that they end at their next stage and go back into the queue. */
@Component
public class Stopping {

    private volatile boolean handingBack;

    void handBackFromNowOn() {
        handingBack = true;
    }

    boolean isHandingBack() {
        return handingBack;
    }
}
