package layupmold.samples;

/** The demo could not do what it was asked; the message says why. */
final class DemoFailure extends RuntimeException {

    DemoFailure(String message) {
        super(message, null, false, false);
    }
}
