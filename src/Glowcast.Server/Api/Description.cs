using System.Text.Json;
using System.Text.Json.Nodes;
using Glowcast.Server.Kept;
using Microsoft.OpenApi;
using Microsoft.OpenApi.Reader;

namespace Glowcast.Server.Api;

/// <summary>One value of a query, as the description of the service names it.</summary>
/// <param name="Type">Of JSON schema.</param>
/// <param name="Example">One that can be sent as it is, together with those of the others.</param>
internal sealed record QueryParameter(string Name, string Description, string Type = "string", bool IsRequired = false, string? Example = null)
{
    public IOpenApiParameter Described => new OpenApiParameter
    {
        Name = Name,
        In = ParameterLocation.Query,
        Description = Description,
        Required = IsRequired,
        Example = Example is null ? null : Type == "string" ? JsonValue.Create(Example) : JsonNode.Parse(Example),
        Schema = new OpenApiSchema { Type = Enum.Parse<JsonSchemaType>(Type, ignoreCase: true) },
    };
}

/// <summary>What the description of the service (OpenAPI 3.1) cannot tell from the code.</summary>
internal static class Description
{
    private const string Plan = "Plan";
    private const string Json = "application/json";

    public static void AddDescription(this IServiceCollection services) => services.AddOpenApi("v1", options =>
    {
        options.OpenApiVersion = OpenApiSpecVersion.OpenApi3_1;
        options.AddDocumentTransformer((document, _, _) =>
        {
            document.Info = new OpenApiInfo
            {
                Title = "Glowcast",
                Version = typeof(Description).Assembly.GetName().Version?.ToString(3),
                Description = "When the sun reaches a far ridge while the valley is in shade, and whether a stitched set can be finished in that light. "
                    + "Bearings are true, in degrees clockwise from north; instants are UTC; heights are above the grid's vertical datum; shares lie between 0 and 1; ± is one standard deviation.",
            };
            // Where a client reached the service is no part of its description.
            document.Servers?.Clear();
            document.AddComponent(Plan, PlanSchema());
            return Task.CompletedTask;
        });
    });

    public static RouteHandlerBuilder TakesQuery(this RouteHandlerBuilder route, params QueryParameter[] parameters) => route.AddOpenApiOperationTransformer(
        (operation, _, _) =>
        {
            operation.Parameters = [.. operation.Parameters ?? [], .. parameters.Select(parameter => parameter.Described)];
            return Task.CompletedTask;
        });

    public static RouteHandlerBuilder TakesPlan(this RouteHandlerBuilder route) => route.AddOpenApiOperationTransformer((operation, context, _) =>
    {
        operation.RequestBody = new OpenApiRequestBody { Required = true, Content = PlanIn(context.Document, Examples.Plan(context.ApplicationServices)) };
        return Task.CompletedTask;
    });

    /// <summary>A name, and the thing under a field of its own.</summary>
    public static RouteHandlerBuilder TakesJson(this RouteHandlerBuilder route, DocumentKind kind) => route.AddOpenApiOperationTransformer((operation, context, _) =>
    {
        operation.RequestBody = BodyOf(
            Examples.Kept(context.ApplicationServices, kind.Field),
            ["name", kind.Field],
            ("name", new OpenApiSchema { Type = JsonSchemaType.String, MinLength = 1, MaxLength = 120 }),
            (kind.Field, new OpenApiSchema { Type = kind.Shape == JsonValueKind.Object ? JsonSchemaType.Object : JsonSchemaType.String }));
        return Task.CompletedTask;
    });

    /// <summary>What a client writes of the field.</summary>
    public static RouteHandlerBuilder TakesNote(this RouteHandlerBuilder route) => route.AddOpenApiOperationTransformer((operation, _, _) =>
    {
        operation.RequestBody = BodyOf(
            Examples.Note,
            ["forecast"],
            ("forecast", new OpenApiSchema { Type = JsonSchemaType.String, Description = "The address of the forecast, as Content-Location gave it." }),
            ("window", new OpenApiSchema { Type = JsonSchemaType.Integer, Description = "Which of its windows. Default 0, the first." }),
            ("firstLight", new OpenApiSchema { Type = JsonSchemaType.String | JsonSchemaType.Null, Description = "An instant with its offset from UTC." }),
            ("lastLight", new OpenApiSchema { Type = JsonSchemaType.String | JsonSchemaType.Null, Description = "An instant with its offset from UTC." }),
            ("deckTopM", new OpenApiSchema { Type = JsonSchemaType.Number | JsonSchemaType.Null }),
            ("set", new OpenApiSchema { Type = JsonSchemaType.String | JsonSchemaType.Null, Enum = ["whole", "broken", "notShot"] }),
            ("text", new OpenApiSchema { Type = JsonSchemaType.String, MaxLength = 2000 }));
        return Task.CompletedTask;
    });

    /// <summary>A plan and a range of days.</summary>
    public static RouteHandlerBuilder TakesSeason(this RouteHandlerBuilder route) => route.AddOpenApiOperationTransformer((operation, context, _) =>
    {
        operation.RequestBody = BodyOf(
            Examples.Season(context.ApplicationServices),
            ["plan", "from", "to"],
            ("plan", new OpenApiSchemaReference(Plan, context.Document)),
            ("from", new OpenApiSchema { Type = JsonSchemaType.String, Description = "First day, such as 2026-10-01." }),
            ("to", new OpenApiSchema { Type = JsonSchemaType.String, Description = "Last day, at most five years later." }));
        return Task.CompletedTask;
    });

    /// <summary>The body is a file as it is.</summary>
    public static RouteHandlerBuilder TakesFile(this RouteHandlerBuilder route, string type) => route.AddOpenApiOperationTransformer((operation, _, _) =>
    {
        operation.RequestBody = new OpenApiRequestBody { Required = true, Content = new Dictionary<string, OpenApiMediaType> { [type] = new() } };
        return Task.CompletedTask;
    });

    /// <summary>A body that can be sent as it is.</summary>
    public static RouteHandlerBuilder ShowsBody(this RouteHandlerBuilder route, string type, JsonNode example) => route.AddOpenApiOperationTransformer((operation, _, _) =>
    {
        operation.RequestBody!.Content![type].Example = example;
        return Task.CompletedTask;
    });

    public static RouteHandlerBuilder AnswersPlan(this RouteHandlerBuilder route) => route.AddOpenApiOperationTransformer((operation, context, _) =>
    {
        operation.Responses!["200"] = new OpenApiResponse { Description = "The plan.", Content = PlanIn(context.Document) };
        return Task.CompletedTask;
    });

    /// <summary>The answer has one of two shapes.</summary>
    public static RouteHandlerBuilder AlsoAnswers<T>(this RouteHandlerBuilder route) => route.AddOpenApiOperationTransformer(async (operation, context, cancel) =>
    {
        var other = await context.GetOrCreateSchemaAsync(typeof(T), null, cancel);
        var content = operation.Responses!["200"].Content![Json];
        content.Schema = new OpenApiSchema { OneOf = [content.Schema!, other] };
    });

    private static OpenApiRequestBody BodyOf(JsonNode example, IEnumerable<string> required, params IEnumerable<(string Name, IOpenApiSchema Schema)> fields)
    {
        var schema = new OpenApiSchema
        {
            Type = JsonSchemaType.Object,
            Required = required.ToHashSet(),
            Properties = fields.ToDictionary(field => field.Name, field => field.Schema),
        };
        return new OpenApiRequestBody { Required = true, Content = new Dictionary<string, OpenApiMediaType> { [Json] = new() { Schema = schema, Example = example } } };
    }

    private static Dictionary<string, OpenApiMediaType> PlanIn(OpenApiDocument? document, JsonNode? example = null) =>
        new() { [Json] = new OpenApiMediaType { Schema = new OpenApiSchemaReference(Plan, document), Example = example } };

    private static OpenApiSchema PlanSchema()
    {
        using var text = new StreamReader(typeof(Description).Assembly.GetManifestResourceStream("plan.schema.json")!);
        return OpenApiModelFactory.Parse<OpenApiSchema>(text.ReadToEnd(), OpenApiSpecVersion.OpenApi3_1, new OpenApiDocument(), out _)!;
    }
}
