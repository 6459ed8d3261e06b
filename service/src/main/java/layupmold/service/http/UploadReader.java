package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import layupmold.service.access.Callers;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.UploadSettings;
import layupmold.service.store.Blob;
import layupmold.service.store.BlobStore;
import org.apache.commons.fileupload2.core.FileItemInput;
import org.apache.commons.fileupload2.core.FileItemInputIterator;
import org.apache.commons.fileupload2.core.FileUploadException;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;

/** Streams a posted part into the store, never holding it in memory, within the bounds set for uploads. */
@Component
class UploadReader {

    private static final int MOST_FIELDS = 8;

    private final BlobStore store;
    private final UploadSettings settings;

    UploadReader(BlobStore store, UploadSettings settings) {
        this.store = store;
        this.settings = settings;
    }

    /**
     * Reads a request's whole body.
     *
     * @throws ProblemException if it is not a part, too large or too slow
     * @throws IOException if the connection breaks
     */
    Upload read(HttpServletRequest request) throws IOException {
        MediaType type = Media.of(request);
        if (type != null && type.isCompatibleWith(MediaType.MULTIPART_FORM_DATA)) {
            return readMultipart(request);
        }
        if (type == null || !Media.isPart(type)) {
            throw new ProblemException(ProblemKind.UNSUPPORTED_MEDIA_TYPE, "Post a part as " + Media.partTypes() + ".");
        }
        long max = maxPart(request);
        refuseDeclaredLength(request, max);
        Blob part = put(bounded(request, max));
        return new Upload(part, null, request.getParameter("recipe"));
    }

    private Upload readMultipart(HttpServletRequest request) throws IOException {
        long maxPart = maxPart(request);
        long max = maxPart + settings.maxRecipe().toBytes() + FormFields.OVERHEAD_BYTES;
        refuseDeclaredLength(request, max);
        Blob part = null;
        String name = null;
        String recipe = request.getParameter("recipe");
        try {
            FileItemInputIterator fields = FormFields.of(new BoundedRequest(request, bounded(request, max)));
            for (int i = 0; fields.hasNext(); i++) {
                FileItemInput field = fields.next();
                if (i >= MOST_FIELDS) {
                    throw FormFields.malformed("There are too many fields.");
                }
                if ("part".equals(field.getFieldName()) && part == null) {
                    part = put(new BoundedBody(field.getInputStream(), maxPart));
                    name = plainName(field);
                } else if ("recipe".equals(field.getFieldName()) && recipe == null) {
                    recipe = FormFields.text(field, settings.maxRecipe().toBytes());
                } else {
                    throw FormFields.malformed("The fields are \"part\" and \"recipe\", each once; there is another, \""
                            + field.getFieldName() + "\".");
                }
            }
        } catch (FileUploadException e) {
            throw FormFields.malformed(e.getMessage());
        }
        if (part == null) {
            throw new ProblemException(ProblemKind.PART_MISSING, "The form has no field \"part\".");
        }
        return new Upload(part, name, recipe);
    }

    private long maxPart(HttpServletRequest request) {
        return Callers.maxPartBytes(request, settings.maxPart().toBytes());
    }

    private BoundedBody bounded(HttpServletRequest request, long max) throws IOException {
        return new BoundedBody(request.getInputStream(), max, settings.deadline().toNanos());
    }

    private Blob put(InputStream body) throws IOException {
        Blob blob = store.put(body::transferTo);
        if (blob.bytes() == 0) {
            throw new ProblemException(ProblemKind.PART_MISSING, "The part has no bytes.");
        }
        return blob;
    }

    private static String plainName(FileItemInput field) {
        String name = field.getName();
        if (name == null) {
            return null;
        }
        String last = name.substring(Math.max(name.lastIndexOf('/'), name.lastIndexOf('\\')) + 1)
                .replaceAll("\\p{Cntrl}", "").strip();
        return last.isEmpty() ? null : last.substring(0, Math.min(last.length(), 200));
    }

    private static void refuseDeclaredLength(HttpServletRequest request, long max) {
        if (request.getContentLengthLong() > max) {
            throw BoundedBody.tooLarge(max);
        }
    }
}
