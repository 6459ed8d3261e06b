/** What a suit of several parts is made of. */
package layupmold.api.batch;
