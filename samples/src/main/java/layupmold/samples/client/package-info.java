/** A small client of the service: the contract's records over the JDK's HTTP client. */
package layupmold.samples.client;
