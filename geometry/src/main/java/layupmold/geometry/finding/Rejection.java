package layupmold.geometry.finding;

/** Thrown inside the pipeline when no mold can be made; carries the finding that says why, where and what to do. */
public final class Rejection extends RuntimeException {

    private final transient Finding finding;

    public Rejection(Finding finding) {
        super(finding.code() + ": " + finding.message(), null, false, false);
        if (finding.severity() != Severity.ERROR) {
            throw new IllegalArgumentException("a rejection needs a finding of severity ERROR");
        }
        this.finding = finding;
    }

    public Finding finding() {
        return finding;
    }
}
