package layupmold.service.cluster;

import layupmold.service.CubeMaker;
import layupmold.service.RunningService;

/** A node of the service in a process of its own, to be killed. */
final class ChildNode {

    private ChildNode() {
    }

    public static void main(String[] settings) {
        RunningService.start(new CubeMaker(), settings);
    }
}
