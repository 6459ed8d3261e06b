/** The print queue: which molds are to be printed, and what a print farm's agents take from it. */
package layupmold.api.farm;
