package layupmold.geometry.face;

/** First in, first out, without boxing. */
final class IntQueue {

    private int[] items = new int[256];
    private int head;
    private int size;

    void add(int item) {
        if (size == items.length) {
            int[] larger = new int[2 * size];
            System.arraycopy(items, head, larger, 0, size - head);
            System.arraycopy(items, 0, larger, size - head, head);
            items = larger;
            head = 0;
        }
        items[(head + size++) % items.length] = item;
    }

    int take() {
        int item = items[head];
        head = (head + 1) % items.length;
        size--;
        return item;
    }

    boolean isEmpty() {
        return size == 0;
    }
}
