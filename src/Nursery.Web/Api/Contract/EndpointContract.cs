using System.Net.Mime;
using Microsoft.OpenApi;
using Nursery.Application;
using Nursery.Domain.People;
using Nursery.Web.Api.Problems;
using Nursery.Web.Api.Requests;

namespace Nursery.Web.Api.Contract;

/// <summary>What an endpoint asks for, takes and answers: enforced where it can be, and told in /openapi/v1.json.</summary>
internal static class EndpointContract
{
    public static RouteHandlerBuilder Needs(this RouteHandlerBuilder endpoint, Right right, string name, string summary)
    {
        endpoint.RequireAuthorization(right.ToString())
            .WithMetadata(new NeededRight(right))
            .WithName(name)
            .WithSummary(summary)
            .WithDescription($"Needs the right '{ApiJson.Word(right)}'.");
        return endpoint.Refuses(400, 401, 403, 500);
    }

    public static RouteHandlerBuilder Refuses(this RouteHandlerBuilder endpoint, params int[] statuses)
    {
        foreach (var status in statuses)
        {
            endpoint.Produces<ApiProblem>(status, ApiProblem.ContentType);
        }

        return endpoint;
    }

    public static RouteHandlerBuilder Lists<T>(this RouteHandlerBuilder endpoint) => endpoint
        .Produces<Page<T>>()
        .Takes("limit", JsonSchemaType.Integer, "1–1000 items a page; 100 when not given")
        .Takes("cursor", JsonSchemaType.String, "the 'next' of the page before")
        .Refuses(422);

    public static RouteHandlerBuilder Takes(
        this RouteHandlerBuilder endpoint, string name, JsonSchemaType type, string description, string? format = null) =>
        endpoint.WithMetadata(new QueryValue(name, type, description, format));

    public static RouteHandlerBuilder TakesDay(this RouteHandlerBuilder endpoint, string name, string description) =>
        endpoint.Takes(name, JsonSchemaType.String, description, "date");

    public static RouteHandlerBuilder TakesWord<T>(this RouteHandlerBuilder endpoint, string name, string description)
        where T : struct, Enum =>
        endpoint.WithMetadata(new QueryValue(
            name, JsonSchemaType.String, description, null, [.. Enum.GetValues<T>().Select(ApiJson.Word)]));

    public static RouteHandlerBuilder Reads<T>(this RouteHandlerBuilder endpoint, bool required = true) => endpoint
        .WithMetadata(new BodyShape(typeof(T), MediaTypeNames.Application.Json, required))
        .Refuses(413, 415, 422);

    public static RouteHandlerBuilder ReadsCsv(this RouteHandlerBuilder endpoint) => endpoint
        .WithMetadata(new BodyShape(typeof(string), MediaTypeNames.Text.Csv, true))
        .Refuses(413, 415, 422);

    /// <summary>With an Idempotency-Key the request is carried out once, however often it is sent.</summary>
    public static RouteHandlerBuilder OnceByKey(this RouteHandlerBuilder endpoint) => endpoint
        .WithMetadata(new TakesIdempotencyKey())
        .AddEndpointFilter<OnceByKeyFilter>()
        .Refuses(409, 422);
}
