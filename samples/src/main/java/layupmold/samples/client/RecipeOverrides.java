package layupmold.samples.client;

import java.lang.reflect.RecordComponent;

/** Lays a part's own recipe over its suit's defaults, field by field. */
public final class RecipeOverrides {

    private RecipeOverrides() {
    }

    /**
     * {@code own} with every absent field taken from {@code defaults}; records inside records are merged likewise, lists
     * are taken whole.
     *
     * @param defaults may be null
     * @param own may be null
     */
    public static <T extends Record> T applied(T defaults, T own) {
        if (defaults == null || own == null) {
            return own == null ? defaults : own;
        }
        @SuppressWarnings("unchecked")
        Class<T> type = (Class<T>) own.getClass();
        RecordComponent[] components = type.getRecordComponents();
        Class<?>[] types = new Class<?>[components.length];
        Object[] values = new Object[components.length];
        try {
            for (int i = 0; i < components.length; i++) {
                types[i] = components[i].getType();
                values[i] = field(components[i].getAccessor().invoke(defaults),
                        components[i].getAccessor().invoke(own));
            }
            return type.getDeclaredConstructor(types).newInstance(values);
        } catch (ReflectiveOperationException e) {
            throw new IllegalArgumentException(type + " is not an open record", e);
        }
    }

    private static Object field(Object byDefault, Object own) {
        if (byDefault instanceof Record outer && own instanceof Record inner) {
            return applied(outer, inner);
        }
        return own == null ? byDefault : own;
    }
}
