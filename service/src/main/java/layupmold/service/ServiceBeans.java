package layupmold.service;

import java.time.Clock;
import java.util.List;
import layupmold.geometry.MoldOutcome;
import layupmold.geometry.MoldPipeline;
import layupmold.geometry.finding.Rejection;
import layupmold.geometry.mesh.io.MeshLimits;
import layupmold.geometry.mesh.io.MeshReader;
import layupmold.service.making.MoldMaker;
import layupmold.service.settings.JobSettings;
import layupmold.service.settings.UploadSettings;
import org.springframework.context.annotation.Bean;
import org.springframework.context.annotation.Configuration;
import org.springframework.transaction.PlatformTransactionManager;
import org.springframework.transaction.support.TransactionTemplate;

/** Parts that have no Spring annotations of their own. */
@Configuration(proxyBeanMethods = false)
class ServiceBeans {

    /** A compressed part may unfold to so many times the largest part file. */
    private static final int UNFOLDING = 4;

    @Bean
    Clock clock() {
        return Clock.systemUTC();
    }

    @Bean
    TransactionTemplate transactions(PlatformTransactionManager database) {
        return new TransactionTemplate(database);
    }

    /** The one door to the geometry. */
    @Bean
    MoldMaker moldMaker(JobSettings jobs, UploadSettings uploads) {
        long bytes = uploads.maxPart().toBytes();
        MeshLimits limits = new MeshLimits(bytes, jobs.maxTriangles(), 3 * jobs.maxTriangles(), UNFOLDING * bytes);
        return (part, fileName, recipe, progress) -> {
            try {
                return MoldPipeline.make(MeshReader.read(part, fileName, limits), recipe, progress);
            } catch (Rejection unreadable) {
                return new MoldOutcome.Rejected(unreadable.finding(), List.of(unreadable.finding()));
            }
        };
    }
}
