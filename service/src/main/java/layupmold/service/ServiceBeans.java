package layupmold.service;

import java.time.Clock;
import layupmold.service.settings.StoreSettings;
import layupmold.service.store.BlobStore;
import layupmold.service.store.FolderBlobStore;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;

/** Parts that have no Spring annotations of their own. */
@Configuration(proxyBeanMethods = false)
class ServiceBeans {

    @Bean
    Clock clock() {
        return Clock.systemUTC();
    }

    @Bean
    BlobStore blobStore(StoreSettings settings) {
        return new FolderBlobStore(settings.folder());
    }
}
