package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import layupmold.service.access.Callers;
import layupmold.service.batch.SuitArchive;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.UploadSettings;
import org.apache.commons.fileupload2.core.DiskFileItem;
import org.apache.commons.fileupload2.core.DiskFileItemFactory;
import org.apache.commons.fileupload2.core.FileItemInput;
import org.apache.commons.fileupload2.core.FileItemInputIterator;
import org.apache.commons.fileupload2.core.FileUploadException;
import org.apache.commons.fileupload2.jakarta.servlet6.JakartaServletFileUpload;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;

/** Streams a posted suit into the store, within the bounds set for uploads. */
@Component
class SuitUploadReader {

    private static final MediaType ZIP = MediaType.valueOf("application/zip");
    private static final int MOST_FIELDS = 4;
    private static final int MULTIPART_OVERHEAD = 1 << 16;

    private final SuitZipReader zips;
    private final UploadSettings settings;

    SuitUploadReader(SuitZipReader zips, UploadSettings settings) {
        this.zips = zips;
        this.settings = settings;
    }

    /**
     * Reads a request's whole body.
     *
     * @throws ProblemException if it is no suit, too large or too slow
     * @throws IOException if the connection breaks
     */
    SuitArchive read(HttpServletRequest request) throws IOException {
        MediaType type = mediaType(request.getContentType());
        long max = settings.maxSuit().toBytes() + MULTIPART_OVERHEAD;
        if (request.getContentLengthLong() > max) {
            throw BoundedBody.tooLarge(settings.maxSuit().toBytes());
        }
        InputStream body = new BoundedBody(request.getInputStream(), max, settings.deadline().toNanos());
        if (type != null && type.isCompatibleWith(MediaType.MULTIPART_FORM_DATA)) {
            return readForm(new BoundedRequest(request, (BoundedBody) body));
        }
        if (type == null || !(type.isCompatibleWith(ZIP) || type.isCompatibleWith(MediaType.APPLICATION_OCTET_STREAM))) {
            throw new ProblemException(ProblemKind.UNSUPPORTED_MEDIA_TYPE,
                    "Post a suit as multipart/form-data or application/zip.");
        }
        SuitZipReader.Unpacked zip = zips.read(body, Callers.maxPartBytes(request, settings.maxPart().toBytes()));
        return archive(zip, null, request.getParameter("recipe"));
    }

    private SuitArchive readForm(BoundedRequest request) throws IOException {
        SuitZipReader.Unpacked zip = null;
        String manifest = null;
        String recipe = null;
        try {
            FileItemInputIterator fields =
                    new JakartaServletFileUpload<DiskFileItem, DiskFileItemFactory>().getItemIterator(request);
            for (int i = 0; fields.hasNext() && i < MOST_FIELDS; i++) {
                FileItemInput field = fields.next();
                if ("suit".equals(field.getFieldName()) && zip == null) {
                    zip = zips.read(field.getInputStream(),
                            Callers.maxPartBytes(request.request(), settings.maxPart().toBytes()));
                } else if ("manifest".equals(field.getFieldName()) && manifest == null) {
                    manifest = text(field, SuitZipReader.MANIFEST_BYTES);
                } else if ("recipe".equals(field.getFieldName()) && recipe == null) {
                    recipe = text(field, settings.maxRecipe().toBytes());
                } else {
                    throw malformed("The fields are \"suit\", \"manifest\" and \"recipe\", each once; there is another, \""
                            + field.getFieldName() + "\".");
                }
            }
        } catch (FileUploadException e) {
            throw malformed(e.getMessage());
        }
        if (zip == null) {
            throw new ProblemException(ProblemKind.PART_MISSING, "The form has no field \"suit\" with a zip of the parts.");
        }
        return archive(zip, manifest, recipe);
    }

    private static SuitArchive archive(SuitZipReader.Unpacked zip, String ownManifest, String recipe) {
        String manifest = ownManifest != null ? ownManifest : zip.manifest();
        if (manifest == null) {
            throw new ProblemException(ProblemKind.SUIT_INVALID,
                    "There is no manifest: put suit.json or suit.csv into the zip, or send the form field \"manifest\".");
        }
        // The name says what the zip's manifest is; a form field has none that can be relied on.
        boolean csv = ownManifest != null ? !manifest.stripLeading().startsWith("{") : zip.csv();
        return new SuitArchive(zip.files(), manifest, csv, recipe);
    }

    private static String text(FileItemInput field, long max) throws IOException {
        return new String(new BoundedBody(field.getInputStream(), max).readAllBytes(), StandardCharsets.UTF_8);
    }

    private static MediaType mediaType(String header) {
        try {
            return header == null ? null : MediaType.parseMediaType(header);
        } catch (IllegalArgumentException e) {
            return null;
        }
    }

    private static ProblemException malformed(String detail) {
        return new ProblemException(ProblemKind.MALFORMED_MULTIPART, detail);
    }
}
