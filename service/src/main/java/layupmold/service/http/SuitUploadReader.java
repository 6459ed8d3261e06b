package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.IOException;
import java.io.InputStream;
import layupmold.service.access.Callers;
import layupmold.service.batch.SuitArchive;
import layupmold.service.problem.ProblemException;
import layupmold.service.problem.ProblemKind;
import layupmold.service.settings.UploadSettings;
import org.apache.commons.fileupload2.core.FileItemInput;
import org.apache.commons.fileupload2.core.FileItemInputIterator;
import org.apache.commons.fileupload2.core.FileUploadException;
import org.springframework.http.MediaType;
import org.springframework.stereotype.Component;

/** Streams a posted suit into the store, within the bounds set for uploads. */
@Component
class SuitUploadReader {

    private static final MediaType ZIP = MediaType.valueOf("application/zip");
    private static final int MOST_FIELDS = 4;

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
        MediaType type = Media.of(request);
        long max = settings.maxSuit().toBytes() + FormFields.OVERHEAD_BYTES;
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
            FileItemInputIterator fields = FormFields.of(request);
            for (int i = 0; fields.hasNext() && i < MOST_FIELDS; i++) {
                FileItemInput field = fields.next();
                if ("suit".equals(field.getFieldName()) && zip == null) {
                    zip = zips.read(field.getInputStream(),
                            Callers.maxPartBytes(request.request(), settings.maxPart().toBytes()));
                } else if ("manifest".equals(field.getFieldName()) && manifest == null) {
                    manifest = FormFields.text(field, SuitZipReader.MANIFEST_BYTES);
                } else if ("recipe".equals(field.getFieldName()) && recipe == null) {
                    recipe = FormFields.text(field, settings.maxRecipe().toBytes());
                } else {
                    throw FormFields.malformed("The fields are \"suit\", \"manifest\" and \"recipe\", each once; "
                            + "there is another, \"" + field.getFieldName() + "\".");
                }
            }
        } catch (FileUploadException e) {
            throw FormFields.malformed(e.getMessage());
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
}
