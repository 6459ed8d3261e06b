package layupmold.service.webhook;

import java.net.Inet6Address;
import java.net.InetAddress;
import java.net.UnknownHostException;
import java.util.Arrays;

/** Tells addresses of the open internet from all others (IANA special-purpose address registries, RFC 6890). */
final class PublicAddress {

    /** First address and prefix length of the blocks that {@link InetAddress} has no question for. */
    private static final Block[] SPECIAL = {
        block("0.0.0.0", 8), block("100.64.0.0", 10), block("192.0.0.0", 24), block("192.0.2.0", 24),
        block("192.88.99.0", 24), block("198.18.0.0", 15), block("198.51.100.0", 24), block("203.0.113.0", 24),
        block("240.0.0.0", 4), block("::", 96), block("64:ff9b::", 96), block("64:ff9b:1::", 48), block("100::", 64),
        block("2001::", 23), block("2001:db8::", 32), block("2002::", 16), block("3fff::", 20), block("5f00::", 16),
        block("fc00::", 7), block("fec0::", 10)};

    private record Block(byte[] first, int bits) {

        boolean contains(byte[] address) {
            if (address.length != first.length) {
                return false;
            }
            int whole = bits / 8;
            int mask = bits % 8 == 0 ? 0 : 0xFF << 8 - bits % 8 & 0xFF;
            return Arrays.equals(address, 0, whole, first, 0, whole)
                    && (mask == 0 || (address[whole] & mask) == (first[whole] & mask));
        }
    }

    private PublicAddress() {
    }

    static boolean is(InetAddress address) {
        boolean special = address.isAnyLocalAddress() || address.isLoopbackAddress() || address.isLinkLocalAddress()
                || address.isSiteLocalAddress() || address.isMulticastAddress();
        return !special && Arrays.stream(SPECIAL).noneMatch(block -> block.contains(address.getAddress()));
    }

    private static Block block(String first, int bits) {
        try {
            InetAddress address = InetAddress.getByName(first);
            byte[] bytes = address.getAddress();
            return new Block(first.contains(":") && !(address instanceof Inet6Address) ? new byte[16] : bytes, bits);
        } catch (UnknownHostException e) {
            throw new IllegalStateException(e);
        }
    }
}
