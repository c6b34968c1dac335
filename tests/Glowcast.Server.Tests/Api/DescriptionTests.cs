using System.Text.Json.Nodes;

namespace Glowcast.Server.Tests.Api;

public class DescriptionTests(Service service)
{
    [Fact]
    public async Task The_description_lists_every_path_with_a_summary()
    {
        var description = await service.GetAsync("/openapi/v1.json").JsonAsync();
        Assert.StartsWith("3.1", description["openapi"]!.GetValue<string>(), StringComparison.Ordinal);
        var paths = description["paths"]!.AsObject();
        Assert.Equal(
            [
                "/api/cards", "/api/demo", "/api/forecasts", "/api/forecasts/{address}", "/api/forecasts/{address}/chart", "/api/gear", "/api/gear/{id}", "/api/grids", "/api/grids/{id}", "/api/grids/{id}/hillshade",
                "/api/jobs", "/api/jobs/{id}", "/api/jobs/{id}/events", "/api/jobs/{id}/result",
                "/api/lookouts", "/api/lookouts/{id}", "/api/notes", "/api/notes/applied", "/api/notes/{id}", "/api/plans", "/api/plans/{id}", "/api/seasons", "/api/soundings", "/api/soundings/{id}", "/api/sun", "/api/takes", "/api/takes/frames", "/health",
            ],
            paths.Select(path => path.Key).Order(StringComparer.Ordinal));
        foreach (var operation in paths.SelectMany(path => path.Value!.AsObject()))
            Assert.NotEmpty(operation.Value!["summary"]!.GetValue<string>());
    }

    [Fact]
    public async Task It_knows_the_plan_the_answer_and_the_problem()
    {
        var description = await service.GetAsync("/openapi/v1.json").JsonAsync();
        var post = description["paths"]!["/api/forecasts"]!["post"]!;
        Assert.Equal("#/components/schemas/Plan", Schema(post["requestBody"]!, "application/json")["$ref"]!.GetValue<string>());
        Assert.Equal("#/components/schemas/ForecastAnswer", Schema(post["responses"]!["200"]!, "application/json")["$ref"]!.GetValue<string>());
        var problem = Schema(post["responses"]!["400"]!, "application/problem+json")["$ref"]!.GetValue<string>();
        var schemas = description["components"]!["schemas"]!;
        Assert.NotNull(schemas[problem.Split('/')[^1]]!["properties"]!["errors"]);
        Assert.Equal(1.7, schemas["Plan"]!["properties"]!["lookout"]!["properties"]!["eyeHeightM"]!["default"]!.GetValue<double>());

        var sun = description["paths"]!["/api/sun"]!["get"]!;
        Assert.Equal("number", sun["parameters"]!.AsArray().Single(parameter => parameter!["name"]!.GetValue<string>() == "latitudeDeg")!["schema"]!["type"]!.GetValue<string>());
        Assert.Equal(2, Schema(sun["responses"]!["200"]!, "application/json")["oneOf"]!.AsArray().Count);

        static JsonNode Schema(JsonNode described, string type) => described["content"]![type]!["schema"]!;
    }
}
