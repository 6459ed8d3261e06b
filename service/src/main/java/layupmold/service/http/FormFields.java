package layupmold.service.http;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import org.apache.commons.fileupload2.core.DiskFileItem;
import org.apache.commons.fileupload2.core.DiskFileItemFactory;
import org.apache.commons.fileupload2.core.FileItemInput;
import org.apache.commons.fileupload2.core.FileItemInputIterator;
import org.apache.commons.fileupload2.jakarta.servlet6.JakartaServletFileUpload;

/** The fields of a multipart form, read one by one as they arrive, never kept on disk. */
final class FormFields {

    /** What boundaries and field headers may add to the fields' own bytes. */
    static final int OVERHEAD_BYTES = 1 << 16;

    private FormFields() {
    }

    static FileItemInputIterator of(BoundedRequest request) throws IOException {
        return new JakartaServletFileUpload<DiskFileItem, DiskFileItemFactory>().getItemIterator(request);
    }

    /**
     * A field's text, UTF-8.
     *
     * @throws ProblemException if it has more than {@code max} bytes
     */
    static String text(FileItemInput field, long max) throws IOException {
        return new String(new BoundedBody(field.getInputStream(), max).readAllBytes(), StandardCharsets.UTF_8);
    }

    static ProblemException malformed(String detail) {
        return new ProblemException(ProblemKind.MALFORMED_MULTIPART, detail);
    }
}
