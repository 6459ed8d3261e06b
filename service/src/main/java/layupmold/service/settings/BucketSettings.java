package layupmold.service.settings;

import java.net.URI;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/**
 * A bucket of an S3-speaking server that several nodes share. Credentials come from where the AWS SDK looks for them:
 * environment, system properties, profile, or the machine's role.
 *
 * @param name its name; absent to keep blobs in a folder
 * @param prefix in front of every key
 * @param region where it is
 * @param endpoint of another server than AWS's, or absent
 * @param pathStyle whether the bucket's name stands in the path instead of the host
 */
@ConfigurationProperties("layupmold.bucket")
public record BucketSettings(
        String name,
        @DefaultValue("") String prefix,
        @DefaultValue("us-east-1") String region,
        URI endpoint,
        @DefaultValue("false") boolean pathStyle) {

    /** Whether blobs are kept in a bucket. */
    public boolean isUsed() {
        return name != null && !name.isBlank();
    }
}
