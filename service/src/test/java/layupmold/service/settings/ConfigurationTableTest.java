package layupmold.service.settings;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.io.File;
import java.lang.reflect.RecordComponent;
import java.net.URI;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Locale;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.junit.jupiter.api.Test;
import org.springframework.boot.context.properties.ConfigurationProperties;
import org.springframework.boot.context.properties.bind.DefaultValue;

/** The README's table of settings has every setting with the default that the code has. */
class ConfigurationTableTest {

    @Test
    void theTableIsComplete() throws Exception {
        Map<String, String> table = new TreeMap<>();
        Matcher rows = Pattern.compile("^\\| `(layupmold\\.[a-z.-]+)` \\| ([^|]*) \\|", Pattern.MULTILINE)
                .matcher(Files.readString(Path.of("..", "README.md")));
        while (rows.find()) {
            table.put(rows.group(1), rows.group(2).strip());
        }
        Map<String, String> code = new TreeMap<>();
        URI main = StoreSettings.class.getProtectionDomain().getCodeSource().getLocation().toURI();
        File[] classes = new File(new File(main), StoreSettings.class.getPackageName().replace('.', '/')).listFiles();
        for (File file : classes) {
            Class<?> type = Class.forName(StoreSettings.class.getPackageName() + "."
                    + file.getName().replace(".class", ""));
            ConfigurationProperties prefix = type.getAnnotation(ConfigurationProperties.class);
            if (prefix != null) {
                RecordComponent[] settings = type.getRecordComponents();
                for (int i = 0; i < settings.length; i++) {
                    code.put(prefix.value() + "." + kebab(settings[i].getName()), defaultOf(type, i));
                }
            }
        }
        assertTrue(code.size() > 20, code.toString());
        assertEquals(lines(code), lines(table));
    }

    /** The annotation is the constructor parameter's. */
    private static String defaultOf(Class<?> type, int index) {
        DefaultValue value = type.getDeclaredConstructors()[0].getParameters()[index].getAnnotation(DefaultValue.class);
        return value == null || value.value().length == 0 ? "" : value.value()[0];
    }

    private static String kebab(String name) {
        return name.replaceAll("([A-Z])", "-$1").toLowerCase(Locale.ROOT);
    }

    private static String lines(Map<String, String> settings) {
        return String.join("\n", settings.entrySet().stream().map(Object::toString).toList());
    }
}
