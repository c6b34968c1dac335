using System.Text.Json;
using Glowcast.Engine.Measures;
using Glowcast.Server.Kept;
using Glowcast.Server.Store;
using Microsoft.AspNetCore.Http.HttpResults;
using NodaTime;
using NodaTime.Text;

namespace Glowcast.Server.Api;

/// <param name="Changed">UTC.</param>
public sealed record KeptLookout(string Id, string Name, string Changed, JsonElement Lookout);

/// <inheritdoc cref="KeptLookout"/>
/// <param name="Gear">Camera, lens and set, as in a plan.</param>
public sealed record KeptGear(string Id, string Name, string Changed, JsonElement Gear);

/// <inheritdoc cref="KeptLookout"/>
public sealed record KeptPlan(string Id, string Name, string Changed, JsonElement Plan);

/// <inheritdoc cref="KeptLookout"/>
/// <param name="Sounding">Its text.</param>
public sealed record KeptSounding(string Id, string Name, string Changed, JsonElement Sounding);

/// <summary>The things that users keep under ids of their own.</summary>
internal static class DocumentApi
{
    public static void MapDocuments(this IEndpointRouteBuilder routes)
    {
        routes.MapKind(DocumentKind.Lookouts, "lookout", (id, name, changed, lookout) => new KeptLookout(id, name, changed, lookout));
        routes.MapKind(DocumentKind.Gear, "set of gear", (id, name, changed, gear) => new KeptGear(id, name, changed, gear));
        routes.MapKind(DocumentKind.Plans, "plan", (id, name, changed, plan) => new KeptPlan(id, name, changed, plan));
        routes.MapKind(DocumentKind.Soundings, "sounding", (id, name, changed, sounding) => new KeptSounding(id, name, changed, sounding));
    }

    private static void MapKind<T>(this IEndpointRouteBuilder routes, DocumentKind kind, string word, Func<string, string, string, JsonElement, T> answer)
    {
        var group = routes.MapGroup($"/api/{kind.Path}").WithTags("Kept");
        var desk = new DocumentDesk<T>(kind, word, answer);
        group.MapGet("/", desk.AllAsync).WithSummary($"Every {word} that is kept, by name.").Produces<T[]>();
        group.MapGet("/{id}", desk.OneAsync).WithSummary($"One {word}.").Produces<T>().ProducesProblem(StatusCodes.Status404NotFound);
        group.MapPut("/{id}", desk.PutAsync)
            .WithSummary($"Keeps a {word} under an id of your choice, instead of the one there.")
            .WithDescription("If-Match with the entity tag last seen keeps two writers from undoing one another; If-None-Match: * only makes new ones.")
            .TakesJson(kind)
            .Produces<T>().Produces<T>(StatusCodes.Status201Created).ProducesValidationProblem()
            .ProducesProblem(StatusCodes.Status412PreconditionFailed).ProducesProblem(StatusCodes.Status413PayloadTooLarge)
            .ProducesProblem(StatusCodes.Status415UnsupportedMediaType).ProducesProblem(StatusCodes.Status422UnprocessableEntity)
            .ProducesProblem(StatusCodes.Status507InsufficientStorage);
        group.MapDelete("/{id}", desk.DeleteAsync)
            .WithSummary($"Forgets a {word}.").WithDescription("If-Match with the entity tag last seen deletes nothing that another has changed.")
            .Produces(StatusCodes.Status204NoContent).ProducesValidationProblem().ProducesProblem(StatusCodes.Status404NotFound).ProducesProblem(StatusCodes.Status412PreconditionFailed);
    }

    private sealed class DocumentDesk<T>(DocumentKind kind, string word, Func<string, string, string, JsonElement, T> answer)
    {
        public async Task<IResult> AllAsync(IDocuments documents, CancellationToken cancel) =>
            ETags.Json((await documents.AllAsync(kind.Path, cancel)).Select(Answer));

        public async Task<IResult> OneAsync(string id, IDocuments documents, CancellationToken cancel) =>
            await documents.FindAsync(kind.Path, id, cancel) is { } found ? ETags.Json(Answer(found)) : NotFound(id);

        public async Task<IResult> PutAsync(string id, HttpContext context, IDocuments documents, KeptSoundings soundings, IClock clock)
        {
            using var body = await context.Request.ParseJsonAsync(context.RequestAborted);
            var sounding = await soundings.NamedInAsync(DocumentBody.ThingIn(body.RootElement, kind), context.RequestAborted);
            var read = DocumentBody.Read(id, body.RootElement, kind, sounding);
            var document = new Document(kind.Path, id, read.Name, read.Thing.GetRawText(), clock.GetCurrentInstant());
            var condition = new WriteCondition(context.Request.Headers);
            var outcome = await documents.PutAsync(
                document, before => condition.Allows(before is null ? null : ETags.TagOf(Answer(before))), context.RequestAborted);
            return outcome switch
            {
                PutOutcome.Refused => WriteCondition.Refused($"{word} '{id}'"),
                PutOutcome.TooMany => TypedResults.Problem($"There are as many of {kind.Path} as may be kept; delete some.", statusCode: StatusCodes.Status422UnprocessableEntity),
                _ => ETags.Kept(context, Answer(document), outcome == PutOutcome.Created ? $"/api/{kind.Path}/{id}" : null),
            };
        }

        public async Task<IResult> DeleteAsync(string id, HttpContext context, IDocuments documents)
        {
            var condition = new WriteCondition(context.Request.Headers);
            return await documents.DeleteAsync(kind.Path, id, there => condition.Allows(ETags.TagOf(Answer(there))), context.RequestAborted) switch
            {
                DeleteOutcome.Deleted => TypedResults.NoContent(),
                DeleteOutcome.Refused => WriteCondition.Refused($"{word} '{id}'"),
                _ => NotFound(id),
            };
        }

        private T Answer(Document document) => answer(
            document.Id, document.Name, InstantPattern.ExtendedIso.Format(document.Changed), JsonElement.Parse(document.Json));

        private ProblemHttpResult NotFound(string id) => TypedResults.Problem($"No {word} is kept as '{Shortened.To80(id)}'.", statusCode: StatusCodes.Status404NotFound);
    }
}
