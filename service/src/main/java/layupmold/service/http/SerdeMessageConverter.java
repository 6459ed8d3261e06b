package layupmold.service.http;

import java.io.IOException;
import layupmold.api.ContractJson;
import org.springframework.http.HttpInputMessage;
import org.springframework.http.HttpOutputMessage;
import org.springframework.http.MediaType;
import org.springframework.http.converter.AbstractHttpMessageConverter;
import org.springframework.http.converter.HttpMessageNotReadableException;

/** Reads and writes the contract's records. */
final class SerdeMessageConverter extends AbstractHttpMessageConverter<Object> {

    SerdeMessageConverter() {
        super(MediaType.APPLICATION_JSON, MediaType.APPLICATION_PROBLEM_JSON, new MediaType("application", "*+json"));
    }

    @Override
    protected boolean supports(Class<?> type) {
        return type.getPackageName().startsWith("layupmold.api");
    }

    @Override
    protected Object readInternal(Class<?> type, HttpInputMessage message) throws IOException {
        try {
            return ContractJson.read(message.getBody(), type);
        } catch (IOException e) {
            throw new HttpMessageNotReadableException(e.getMessage(), e, message);
        }
    }

    @Override
    protected void writeInternal(Object record, HttpOutputMessage message) throws IOException {
        byte[] json = ContractJson.write(record);
        message.getHeaders().setContentLength(json.length);
        message.getBody().write(json);
    }
}
