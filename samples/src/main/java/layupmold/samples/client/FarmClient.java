package layupmold.samples.client;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpRequest;
import java.net.http.HttpRequest.BodyPublisher;
import java.net.http.HttpRequest.BodyPublishers;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.util.Optional;
import layupmold.api.ContractJson;
import layupmold.api.farm.Lease;
import layupmold.api.farm.LeaseFailure;
import layupmold.api.farm.LeaseRequest;
import layupmold.api.farm.PrintOrder;
import layupmold.api.farm.PrintOrderRequest;

/** The print queue over HTTP: orders prints, and leases plates for printers. */
public final class FarmClient {

    private final MoldClient molds;

    /** @param key a key of the service, or null */
    public FarmClient(URI service, String key) {
        this.molds = new MoldClient(service, key);
    }

    /** Orders prints of a mold or a suit. */
    public PrintOrder order(PrintOrderRequest wanted) throws IOException, InterruptedException {
        return MoldClient.read(post("/v1/prints", ContractJson.write(wanted)), PrintOrder.class);
    }

    /** The next plate for a printer; empty if nothing that waits fits it. */
    public Optional<Lease> lease(LeaseRequest printer) throws IOException, InterruptedException {
        HttpResponse<byte[]> answer = post("/v1/farm/leases", ContractJson.write(printer));
        return answer.statusCode() == 204 ? Optional.empty() : Optional.of(MoldClient.read(answer, Lease.class));
    }

    /** @throws ServiceProblem with status 409 if the lease has ended */
    public Lease renew(Lease lease) throws IOException, InterruptedException {
        return MoldClient.read(post(path(lease) + "/renew", null), Lease.class);
    }

    /** @throws ServiceProblem with status 409 if the lease has ended */
    public Lease done(Lease lease) throws IOException, InterruptedException {
        return MoldClient.read(post(path(lease) + "/done", null), Lease.class);
    }

    /** @throws ServiceProblem with status 409 if the lease has ended */
    public Lease failed(Lease lease, String reason) throws IOException, InterruptedException {
        return MoldClient.read(post(path(lease) + "/failed", ContractJson.write(new LeaseFailure(reason))), Lease.class);
    }

    /** Fetches a plate into a file, which appears only once it is whole. */
    public void download(String link, Path file) throws IOException, InterruptedException {
        molds.download(link, file);
    }

    private static String path(Lease lease) {
        return "/v1/farm/leases/" + lease.id();
    }

    private HttpResponse<byte[]> post(String path, byte[] json) throws IOException, InterruptedException {
        BodyPublisher body = json == null ? BodyPublishers.noBody() : BodyPublishers.ofByteArray(json);
        HttpRequest request = molds.to(path).header("Accept", "application/json")
                .header("Content-Type", "application/json").POST(body).build();
        return molds.send(request);
    }
}
