package layupmold.service.store;

import layupmold.service.settings.BucketSettings;
import layupmold.service.settings.StoreSettings;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import software.amazon.awssdk.http.urlconnection.UrlConnectionHttpClient;
import software.amazon.awssdk.regions.Region;
import software.amazon.awssdk.services.s3.S3Client;
import software.amazon.awssdk.services.s3.S3ClientBuilder;

/** The one store, by configuration: a bucket if one is named, else a folder. */
@Configuration(proxyBeanMethods = false)
class StoreBeans {

    @Bean
    BlobStore blobStore(StoreSettings settings, BucketSettings bucket) {
        return bucket.isUsed() ? new S3BlobStore(client(bucket), bucket.name(), bucket.prefix())
                : new FolderBlobStore(settings.folder());
    }

    private static S3Client client(BucketSettings settings) {
        S3ClientBuilder client = S3Client.builder().region(Region.of(settings.region()))
                .httpClientBuilder(UrlConnectionHttpClient.builder()).forcePathStyle(settings.pathStyle());
        if (settings.endpoint() != null) {
            client.endpointOverride(settings.endpoint());
        }
        return client.build();
    }
}
