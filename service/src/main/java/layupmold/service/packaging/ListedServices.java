package layupmold.service.packaging;

import io.micronaut.core.io.service.SoftServiceLoader.Optimizations;
import io.micronaut.core.io.service.SoftServiceLoader.StaticDefinition;
import io.micronaut.core.io.service.SoftServiceLoader.StaticServiceLoader;
import io.micronaut.core.optim.StaticOptimizations;
import java.io.IOException;
import java.io.UncheckedIOException;
import java.lang.invoke.MethodHandles;
import java.lang.invoke.MethodType;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Predicate;
import java.util.stream.Stream;

/**
 * Tells the JSON library which of its classes are there. By itself it looks for them by opening jars as file systems,
 * which fails inside a runnable jar; this is its own hook for lists made elsewhere, found by
 * {@link java.util.ServiceLoader}.
 */
public final class ListedServices implements StaticOptimizations.Loader<Optimizations> {

    private static final MethodType NO_ARGUMENTS = MethodType.methodType(void.class);

    @Override
    public Optimizations load() {
        ClassLoader loader = ListedServices.class.getClassLoader();
        Map<String, StaticServiceLoader<?>> services = new HashMap<>();
        try {
            ServiceFolders.list(loader).forEach((service, names) -> services.put(service, present(names, loader)));
        } catch (IOException e) {
            throw new UncheckedIOException("the class path cannot be listed", e);
        }
        return new Optimizations(services);
    }

    private static StaticServiceLoader<Object> present(Set<String> names, ClassLoader loader) {
        return new StaticServiceLoader<>() {
            @Override
            public Stream<StaticDefinition<Object>> findAll(Predicate<String> wanted) {
                List<StaticDefinition<Object>> found = new ArrayList<>();
                for (String name : names) {
                    Object service = wanted.test(name) ? create(name, loader) : null;
                    if (service != null) {
                        found.add(StaticDefinition.of(name, () -> service));
                    }
                }
                return found.stream();
            }
        };
    }

    /** Null if what the class needs is not there, which is how optional parts of the library are left out. */
    private static Object create(String name, ClassLoader loader) {
        try {
            Class<?> type = Class.forName(name, false, loader);
            return MethodHandles.publicLookup().findConstructor(type, NO_ARGUMENTS).invoke();
        } catch (ReflectiveOperationException | NoClassDefFoundError e) {
            return null;
        } catch (Throwable e) {
            throw new IllegalStateException("cannot create " + name, e);
        }
    }
}
