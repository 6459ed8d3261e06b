/** A suit: several parts posted together, what became of each, and what they need in all. */
package layupmold.api.batch;
