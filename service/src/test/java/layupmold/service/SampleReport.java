package layupmold.service;

import java.lang.reflect.Constructor;
import java.lang.reflect.ParameterizedType;
import java.lang.reflect.RecordComponent;
import java.lang.reflect.Type;
import java.util.List;
import java.util.Map;
import layupmold.geometry.finding.Finding;
import layupmold.geometry.report.MoldReport;
import org.joml.Vector3d;

/** A geometry report with a value in every field, whatever fields there are: numbers count up from one. */
public final class SampleReport {

    private static final Map<String, Object> WORDS =
            Map.of("PartFigures.format", "stl-binary", "PartFigures.kind", "closed-shell", "BodyFigures.kind", "block");

    private int next = 1;

    public static MoldReport filled() {
        return (MoldReport) new SampleReport().fill(MoldReport.class, "");
    }

    private Object fill(Type type, String name) {
        if (type instanceof ParameterizedType list && list.getRawType() == List.class) {
            return List.of(fill(list.getActualTypeArguments()[0], name));
        }
        Class<?> plain = (Class<?>) type;
        if (plain == double.class || plain == Double.class) {
            return (double) next++;
        }
        if (plain == int.class || plain == Integer.class) {
            return next++;
        }
        if (plain == long.class || plain == Long.class) {
            return (long) next++;
        }
        if (plain == boolean.class || plain == Boolean.class) {
            return true;
        }
        if (plain == String.class) {
            return WORDS.getOrDefault(name, "some-words");
        }
        if (plain == Vector3d.class) {
            return new Vector3d(next++, next++, next++);
        }
        if (plain == Finding.class) {
            return Finding.warning("mesh", "some-code", "Some words.");
        }
        if (plain.isEnum()) {
            return plain.getEnumConstants()[0];
        }
        if (plain.isRecord()) {
            return fillRecord(plain);
        }
        throw new IllegalArgumentException("no sample for " + name + " of type " + plain);
    }

    private Object fillRecord(Class<?> type) {
        RecordComponent[] components = type.getRecordComponents();
        Class<?>[] types = new Class<?>[components.length];
        Object[] values = new Object[components.length];
        for (int i = 0; i < components.length; i++) {
            types[i] = components[i].getType();
            values[i] = fill(components[i].getGenericType(), type.getSimpleName() + "." + components[i].getName());
        }
        try {
            Constructor<?> constructor = type.getDeclaredConstructor(types);
            return constructor.newInstance(values);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException("cannot fill " + type, e);
        }
    }
}
