package layupmold.service.packaging;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import io.micronaut.core.io.service.MicronautMetaServiceLoaderUtils;
import io.micronaut.core.io.service.SoftServiceLoader.Optimizations;
import io.micronaut.core.optim.StaticOptimizations;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** On a plain class path our list is the one the library makes by itself. */
class ListedServicesTest {

    @Test
    void listsWhatTheLibraryFindsOnAPlainClassPath() throws Exception {
        ClassLoader loader = ListedServices.class.getClassLoader();
        Map<String, Set<String>> own = ServiceFolders.list(loader);
        assertTrue(own.get("io.micronaut.core.beans.BeanIntrospectionReference").stream()
                .anyMatch(name -> name.startsWith("layupmold.api.mold.$MoldResource")), own.toString());
        assertEquals(MicronautMetaServiceLoaderUtils.findAllMicronautMetaServices(loader), own);
    }

    @Test
    void isFoundByTheLibrary() {
        assertTrue(StaticOptimizations.get(Optimizations.class).orElseThrow().getServiceLoaders()
                .containsKey("io.micronaut.inject.BeanDefinitionReference"));
    }
}
