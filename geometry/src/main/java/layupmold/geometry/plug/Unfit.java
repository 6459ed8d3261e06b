package layupmold.geometry.plug;

/** No plug fits here; the message says why, as the second half of a sentence. */
final class Unfit extends Exception {

    private static final long serialVersionUID = 1L;

    /** Of the finding. */
    final String code;

    Unfit(String code, String message) {
        super(message, null, false, false);
        this.code = code;
    }
}
