package layupmold.service.http;

import jakarta.servlet.http.HttpServletRequest;
import java.io.InputStream;
import org.apache.commons.fileupload2.core.RequestContext;

/** A multipart request whose body is read through bounds. */
record BoundedRequest(HttpServletRequest request, BoundedBody body) implements RequestContext {

    @Override
    public String getCharacterEncoding() {
        return request.getCharacterEncoding();
    }

    @Override
    public long getContentLength() {
        return request.getContentLengthLong();
    }

    @Override
    public String getContentType() {
        return request.getContentType();
    }

    @Override
    public InputStream getInputStream() {
        return body;
    }

    @Override
    public boolean isMultipartRelated() {
        return false;
    }
}
